import { expect, it } from 'vitest';
import { wordJob } from '../../e2e/flight/fly-word.ts';
import { STATE } from '../../src/core/tracking/estimate.ts';
import { flyJob } from './job-flight.ts';

// Before, one fix at 288 s put the wind 6.9 m/s off, since a circle fitted to a tight turn said so; then it was called odd for good.
it('keeps a wind that explains what was seen beside a fitted circle that does not lie better', { timeout: 60_000 }, () => {
  let worst = 0;
  flyJob(
    wordJob('QUICK'),
    66,
    10,
    {},
    {
      stampsAheadSeconds: 0,
      longestSeconds: 420,
      watch: (state, { atSeconds, windEast, windNorth }) => {
        const mean = state.phase === 'idle' || atSeconds < 100 ? undefined : state.flight.tracker.estimate?.mean;
        if (mean !== undefined) worst = Math.max(worst, Math.hypot(mean[STATE.windEast]! - windEast, mean[STATE.windNorth]! - windNorth));
      },
    },
  );
  expect(worst).toBeGreaterThan(0);
  expect(worst).toBeLessThan(3.5);
});
