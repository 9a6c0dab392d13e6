import { spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Engine } from './engine.ts';

/** WebKitGTK by its own WebDriver (W3C recommendation), on a screen that nobody sees. */
export async function startWebKit(port: number): Promise<Engine> {
  const display = `:${port % 1000}`;
  const screen = spawn('Xvfb', [display, '-screen', '0', '1024x768x24', '-nolisten', 'tcp'], { stdio: 'ignore' });
  const driver = spawn('WebKitWebDriver', [`--port=${port}`], {
    stdio: 'ignore',
    env: { ...process.env, DISPLAY: display, WEBKIT_DISABLE_COMPOSITING_MODE: '1' },
  });
  const base = `http://127.0.0.1:${port}`;
  async function call(method: 'POST' | 'GET' | 'DELETE', path: string, body?: object): Promise<unknown> {
    const response = await fetch(`${base}${path}`, {
      method,
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'Content-Type': 'application/json' } }),
    });
    const { value } = (await response.json()) as { value: { readonly error?: string; readonly message?: string } | null };
    if (!response.ok) throw new Error(`${path}: ${value?.error ?? response.status} ${value?.message ?? ''}`);
    return value;
  }
  for (let attempt = 0; ; attempt += 1) {
    const ready = await fetch(`${base}/status`).then(
      ({ ok }) => ok,
      () => false,
    );
    if (ready) break;
    if (attempt > 60) throw new Error('WebKitWebDriver does not answer');
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
  const session = (await call('POST', '/session', {
    capabilities: { alwaysMatch: { 'webkitgtk:browserOptions': { binary: miniBrowser(), args: ['--automation'] } } },
  })) as { sessionId: string; capabilities: { browserName: string; browserVersion: string } };
  const path = `/session/${session.sessionId}`;
  await call('POST', `${path}/timeouts`, { script: 60_000, pageLoad: 60_000 });
  return {
    name: `WebKitGTK (${session.capabilities.browserName} ${session.capabilities.browserVersion})`,
    async open(url) {
      await call('POST', `${path}/url`, { url });
    },
    async evaluate(expression) {
      const script = `const done = arguments[arguments.length - 1]; (async () => JSON.stringify((await (${expression})) ?? null))().then((value) => done({ value }), (error) => done({ error: String(error) }));`;
      const answer = (await call('POST', `${path}/execute/async`, { script, args: [] })) as { value?: string; error?: string };
      if (answer.error !== undefined) throw new Error(answer.error);
      return JSON.parse(answer.value!) as unknown;
    },
    async close() {
      await call('DELETE', path).catch(() => {});
      driver.kill();
      screen.kill();
      await Promise.resolve();
    },
  };
}

function miniBrowser(): string {
  for (const folder of ['/usr/lib/x86_64-linux-gnu', '/usr/lib/aarch64-linux-gnu', '/usr/libexec']) {
    const found = existsSync(folder)
      ? readdirSync(folder)
          .filter((name) => name.startsWith('webkit2gtk-'))
          .map((name) => join(folder, name, 'MiniBrowser'))
          .find(existsSync)
      : undefined;
    if (found !== undefined) return found;
  }
  throw new Error('MiniBrowser was not found beside the WebKitGTK driver');
}
