import { expect, test } from '@playwright/test';
import { drawPolylines } from '../tests/flight/draw-strokes.ts';
import { openTextReader, type TextReader } from '../tests/flight/read-text.ts';
import { seenFromBelow } from '../tests/flight/smoke-from-below.ts';
import { byPlaywright, flyToEnd, ordersFor, startFlight, wordJob } from './flight/fly-word.ts';
import { pageScript } from './flight/pilot-script.ts';

let script: string;
let reader: TextReader;

test.beforeAll(async () => {
  script = await pageScript('pilot-in-page');
  reader = await openTextReader();
});
test.afterAll(() => reader.close());

/**
 * The measure above all: offline, in a browser, a simulated pilot obeys only what the cue contract shows, in a wind
 * 10 kt off the forecast; an OCR engine that does not know the word reads the smoke from below.
 */
for (const [word, seed] of [
  ['SKY', 4],
  ['CAKE', 9],
] as const) {
  test(`${word} is flown by its cues and read from below`, async ({ page }) => {
    test.setTimeout(240_000);
    await page.clock.install({ time: Date.UTC(2027, 5, 19, 17, 0) });
    await page.addInitScript({ content: script });
    const job = wordJob(word);
    await startFlight(page, job);
    const report = await flyToEnd(page, ordersFor(job, seed, 10), byPlaywright);
    expect(report.finished).toBe(true);
    expect(report.wrongOns).toBe(0);
    const picture = { letterHeightMetres: job.letters.heightFeet * 0.3048 };
    const seen = seenFromBelow(report.trails, job.facingDegreesTrue);
    expect((await reader.read(drawPolylines(seen, picture))).text).toBe(word);
    expect((await reader.read(drawPolylines(seen, { ...picture, mirrored: true }))).text).not.toBe(word);
    // The reason for the air-mass frame: the same strokes fixed to the ground are blown apart while they are written.
    expect((await reader.read(drawPolylines(seenFromBelow(report.groundTrails, job.facingDegreesTrue), picture))).text).not.toBe(word);
  });
}
