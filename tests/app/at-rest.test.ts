import { expect, it } from 'vitest';
import { atRest } from '../../src/app/at-rest.ts';

const secondsOf = async (work: Promise<void>): Promise<number> => {
  const begunAt = performance.now();
  await work;
  return (performance.now() - begunAt) / 1000;
};

/** Keeps this thread busy for 150 ms, but for a moment, so many times. */
function busyFor(times: number): Promise<void> {
  return new Promise((resolve) => {
    const work = (left: number): void => {
      if (left === 0) return resolve();
      for (const until = performance.now() + 150; performance.now() < until;);
      setTimeout(() => work(left - 1), 5);
    };
    work(times);
  });
}

it('waits for a second without work, however long the work before it', async () => {
  expect(await secondsOf(atRest())).toBeGreaterThan(0.95);
  const work = busyFor(8);
  const waited = secondsOf(atRest());
  const worked = await secondsOf(work);
  expect(await waited).toBeGreaterThan(worked + 0.9);
});

it('does not wait for ever for a page that is never at rest', async () => {
  const work = busyFor(42);
  const [waited, worked] = await Promise.all([secondsOf(atRest()), secondsOf(work)]);
  expect(waited).toBeGreaterThan(4.9);
  expect(waited).toBeLessThan(worked);
});
