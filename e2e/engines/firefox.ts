import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import WebSocket from 'ws';
import type { Engine } from './engine.ts';

interface Answer {
  readonly id?: number;
  readonly type: string;
  readonly result?: { readonly [key: string]: unknown };
  readonly message?: string;
}

/** Firefox by WebDriver BiDi (W3C working draft), which it speaks itself; no driver stands between. */
export async function startFirefox(port: number): Promise<Engine> {
  const profile = mkdtempSync(join(tmpdir(), 'quillwind-firefox-'));
  const browser = spawn('firefox-esr', ['--headless', '--no-remote', '--profile', profile, '--remote-debugging-port', String(port)], {
    stdio: 'ignore',
    env: { ...process.env, HOME: profile },
  });
  const socket = await connected(`ws://127.0.0.1:${port}/session`);
  const waiting = new Map<number, { resolve(result: Answer['result']): void; reject(error: Error): void }>();
  let nextId = 1;
  socket.on('message', (data: Buffer) => {
    const answer = JSON.parse(data.toString('utf8')) as Answer;
    const asked = answer.id === undefined ? undefined : waiting.get(answer.id);
    if (answer.id === undefined || asked === undefined) return;
    waiting.delete(answer.id);
    if (answer.type === 'success') asked.resolve(answer.result);
    else asked.reject(new Error(answer.message ?? 'refused'));
  });
  const send = (method: string, params: object): Promise<Answer['result']> =>
    new Promise((resolve, reject) => {
      const id = nextId++;
      waiting.set(id, { resolve, reject });
      socket.send(JSON.stringify({ id, method, params }));
    });
  const session = (await send('session.new', { capabilities: {} })) as { capabilities: { browserVersion: string } };
  const tree = (await send('browsingContext.getTree', {})) as { contexts: readonly { context: string }[] };
  const { context } = tree.contexts[0]!;
  return {
    name: `Firefox ${session.capabilities.browserVersion}`,
    async open(url) {
      await send('browsingContext.navigate', { context, url, wait: 'complete' });
    },
    async evaluate(expression) {
      const answer = (await send('script.evaluate', {
        expression: `(async () => JSON.stringify((await (${expression})) ?? null))()`,
        target: { context },
        awaitPromise: true,
      })) as { type: string; result?: { value: string }; exceptionDetails?: { text: string } };
      if (answer.type !== 'success') throw new Error(answer.exceptionDetails?.text ?? 'it threw');
      return JSON.parse(answer.result!.value) as unknown;
    },
    async close() {
      await send('browser.close', {}).catch(() => {});
      socket.close();
      if (browser.exitCode === null) await new Promise((resolve) => browser.once('exit', resolve));
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

async function connected(address: string): Promise<WebSocket> {
  for (let attempt = 0; ; attempt += 1) {
    const socket = new WebSocket(address);
    const open = await new Promise<boolean>((resolve) => {
      socket.once('open', () => resolve(true));
      socket.once('error', () => resolve(false));
    });
    if (open) return socket;
    if (attempt > 120) throw new Error(`Firefox does not answer at ${address}`);
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
}
