import { expect, test } from '@playwright/test';
import { pageScript } from '../flight/pilot-script.ts';
import { openStartPanel } from '../write-flight.ts';
import { acknowledged, storedRows } from '../write-log.ts';
import { openJobs } from '../stored-jobs.ts';

/** Three in the nightly run; none by default, since an hour takes minutes even on a fast clock. */
const HOURS = Number(process.env['QUILLWIND_SOAK_HOURS'] ?? 0);
const MINUTE = 60_000;

test.skip(HOURS === 0, 'asked for with QUILLWIND_SOAK_HOURS=3');

/** Redoes the last stroke again and again, so that the flight never ends. */
test(`${HOURS} hours of flight lose no row, and neither memory nor the time of a step grows`, async ({ page }) => {
  test.setTimeout(HOURS * 1_200_000);
  await page.addInitScript({ content: await pageScript('fast-clock') });
  await openJobs(page);
  await openStartPanel(page);
  // The clock is taken over before the flight sets its first timer.
  await page.evaluate(() => window.fastClock.advance(1));
  await page.getByRole('button', { name: 'Start rehearsal' }).click();
  const session = await page.context().newCDPSession(page);
  const heapMegabytes = async (): Promise<number> => {
    await session.send('HeapProfiler.collectGarbage');
    return ((await session.send('Runtime.getHeapUsage')) as { usedSize: number }).usedSize / 1e6;
  };
  const minutes: number[] = [];
  const heaps: number[] = [];
  for (let minute = 0; minute < HOURS * 60; minute += 1) {
    const startedAt = performance.now();
    await page.evaluate((span) => window.fastClock.advance(span), MINUTE);
    minutes.push(performance.now() - startedAt);
    if (minute % 10 === 9) heaps.push(await heapMegabytes());
    const redo = page.getByRole('button', { name: /^REDO/ });
    if ((await page.locator('[data-cue="phase"]').getAttribute('data-value')) === 'stroke' && (await redo.count()) > 0) await redo.click();
  }
  await expect
    .poll(
      async () =>
        page
          .evaluate(() => window.fastClock.advance(2000))
          .then(() => acknowledged(page))
          .then(({ sequence }) => sequence),
      { timeout: 60_000 },
    )
    .toBeGreaterThan(HOURS * 36_000);
  const { flightId, sequence } = await acknowledged(page);
  const rows = await storedRows(page, flightId);
  expect(rows.length).toBeGreaterThan(sequence);
  expect(rows.every((row, index) => row.sequence === index)).toBe(true);
  const median = (values: readonly number[]): number => values.toSorted((one, other) => one - other)[values.length >> 1]!;
  const third = Math.floor(minutes.length / 3);
  const [first, last] = [median(minutes.slice(0, third)), median(minutes.slice(-third))];
  process.stdout.write(
    `      ${rows.length} rows over ${HOURS} h; a minute takes ${first.toFixed(0)} ms at first and ${last.toFixed(0)} ms at last; heap ${heaps[0]!.toFixed(1)} and ${heaps.at(-1)!.toFixed(1)} MB\n`,
  );
  expect(last).toBeLessThan(2 * first);
  expect(heaps.at(-1)).toBeLessThan(heaps[0]! + 30);
});
