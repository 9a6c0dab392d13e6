import { gzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';

/** What a killed flight must load before it shows its cue again: the page's own script and all it imports at once. */
test('the script of the flight path is under 60 kB gzip', async ({ request }) => {
  const page = await (await request.get('./')).text();
  const queue = [...page.matchAll(/(?:src|href)="([^"]+\.js)"/g)].map(([, address]) => new URL(address!, 'http://app/').pathname);
  const seen = new Map<string, number>();
  while (queue.length > 0) {
    const path = queue.pop()!;
    if (seen.has(path)) continue;
    const body = await (await request.get(`.${path}`)).body();
    seen.set(path, gzipSync(body, { level: 9 }).length);
    for (const [, from] of body.toString('utf8').matchAll(/(?:^|[;}])import(?:[\w{}\s,*$]+from)?\s*["'](\.[^"']+\.js)["']/g)) {
      queue.push(new URL(from!, `http://app${path}`).pathname);
    }
  }
  expect(seen.size).toBeGreaterThan(0);
  const bytes = [...seen.values()].reduce((sum, size) => sum + size, 0);
  expect(bytes).toBeGreaterThan(20_000);
  expect(bytes).toBeLessThan(60_000);
});
