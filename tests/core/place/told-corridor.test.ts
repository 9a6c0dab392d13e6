import { expect, it } from 'vitest';
import { windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { placeTextMiddle } from '../../../src/core/plan/place.ts';
import { toldCorridor } from '../../../src/core/place/told-corridor.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { plannedText } from '../sky/planned.ts';

const wind = windVectorFrom({ fromRadians: radiansFromDegrees(270), speedMetresPerSecond: 6 });
const air = { wind, layerAboveSiteMetres: 2_700 };
const wish = { facingRadians: 0, viewElevationRadians: radiansFromDegrees(35), layerAboveSiteMetres: 2_700 };
const plan = plannedText('SAIL', { frame: { facingRadians: 0, middle: placeTextMiddle(wish, wind, 720) }, oilKilogramsPerSecond: 0.34 });

it('tells the controller of smoke as long as it reads, but 20 minutes after the last stroke at least and 60 at most', () => {
  const told = (afterSeconds: number): number => {
    const highSeconds = plan.durationSeconds + afterSeconds;
    return toldCorridor(plan, air, { until: { lowSeconds: 0, likelySeconds: 0, highSeconds } }).untilSeconds - plan.durationSeconds;
  };
  expect([300, 1_800, 9_000].map(told).map(Math.round)).toEqual([1_200, 1_800, 3_600]);
});
