import { expect, it } from 'vitest';
import { driftMetres } from '../../../src/core/plan/place.ts';
import { windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { windCorrections } from '../../../src/core/place/wind-corrections.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';

it('moves the first smoke so far upwind that the extra wind brings the word back by the read time', () => {
  const planned = { eastMetres: -2000, northMetres: 500 };
  const rows = windCorrections(planned, 600);
  expect(rows).toHaveLength(24);
  for (const { moreFromDegrees, moreKnots, firstSmoke } of rows) {
    const more = windVectorFrom({ fromRadians: radiansFromDegrees(moreFromDegrees), speedMetresPerSecond: metresPerSecondFromKnots(moreKnots) });
    const drift = driftMetres(more, 600);
    expect(firstSmoke.eastMetres + drift.eastMetres).toBeCloseTo(planned.eastMetres, 6);
    expect(firstSmoke.northMetres + drift.northMetres).toBeCloseTo(planned.northMetres, 6);
  }
  // 10 kt are 5.1444 m/s (1,852 m an hour is a knot): 3,086.7 m in ten minutes.
  const north = rows.find((row) => row.moreFromDegrees === 0 && row.moreKnots === 10);
  expect(north?.movedMetres).toBeCloseTo(3086.67, 1);
  expect(north?.firstSmoke.northMetres).toBeCloseTo(3586.67, 1);
});
