import type { RequestListener } from 'node:http';

const LIMIT_BYTES = 4_000_000;
const LIMIT_MILLISECONDS = 3000;
/** One answer serves everybody who asks within this. */
const FRESH_MILLISECONDS = 500;

/**
 * Passes on the JSON of one receiver, named by whoever runs the hub and by nobody else, so that a page can read it that
 * may not reach it itself: it is of another origin, and plain HTTP.
 */
export function proxyReceiver(address: string): RequestListener {
  let last: { readonly atMilliseconds: number; readonly answer: Promise<string> } | null = null;
  return (request, response) => {
    const fail = (status: number, words: string): void => {
      response.writeHead(status, { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' });
      response.end(`${words}\n`);
    };
    if (request.method !== 'GET') return fail(405, 'Only GET');
    const now = Date.now();
    if (last === null || now - last.atMilliseconds > FRESH_MILLISECONDS) last = { atMilliseconds: now, answer: fetchJson(address) };
    last.answer.then(
      (text) => {
        response.writeHead(200, { 'Content-Type': 'application/json; charset=utf-8', 'Cache-Control': 'no-store', 'X-Content-Type-Options': 'nosniff' });
        response.end(text);
      },
      () => fail(502, 'The receiver does not answer'),
    );
  };
}

async function fetchJson(address: string): Promise<string> {
  const answer = await fetch(address, { signal: AbortSignal.timeout(LIMIT_MILLISECONDS), redirect: 'error' });
  if (!answer.ok || answer.body === null) throw new Error(`status ${answer.status}`);
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  for await (const chunk of answer.body) {
    bytes += chunk.byteLength;
    if (bytes > LIMIT_BYTES) throw new Error('too long');
    chunks.push(chunk);
  }
  const text = Buffer.concat(chunks).toString('utf8');
  JSON.parse(text);
  return text;
}
