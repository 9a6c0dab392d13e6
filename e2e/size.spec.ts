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

/** Each is a round trip on a telephone's network, some one behind the other: 25 to 38 before what all need was joined. */
for (const [screen, most] of [
  ['jobs', 14],
  ['draw/lake-ondine', 22],
  ['brief/lake-ondine', 15],
  ['write/lake-ondine', 22],
  ['ground/lake-ondine', 22],
  ['debrief/lake-ondine', 20],
] as const) {
  test(`the first opening of ${screen} fetches at most ${most} scripts and style sheets`, async ({ page }) => {
    await page.goto(`./#/${screen}`);
    await page.locator('main h1, main h2').first().waitFor();
    await page.waitForLoadState('networkidle');
    const fetched = await page.evaluate(() =>
      performance.getEntriesByType('resource').flatMap(({ name }) => /\/assets\/(.*)\.(?:js|css)$/.exec(name)?.[1] ?? []),
    );
    expect(fetched.length).toBeGreaterThan(3);
    expect(fetched.length, fetched.join(' ')).toBeLessThanOrEqual(most);
  });
}
