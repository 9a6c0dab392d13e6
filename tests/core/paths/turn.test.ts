import { describe, expect, test } from 'vitest';
import {
  airspeedForRadiusMetresPerSecond,
  bankForRadiusRadians,
  bankForRateRadians,
  HANDBOOK_TURN,
  turnLoadFactor,
  turnRadiusMetres,
  turnRateRadiansPerSecond,
} from '../../../src/core/paths/turn.ts';
import { degreesFromRadians, radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { feetFromMetres, metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';
import reference from '../../reference/turn.json' with { type: 'json' };

// FAA-H-8083-25C, chapter 5, pp. 5-34 to 5-39; the rows were computed from its formulas and from g = 9.80665.
describe('turns of FAA-H-8083-25C', () => {
  test('nine rows are present', () => expect(reference.rows).toHaveLength(9));

  test.each(reference.rows)('$tas_kt kt at $bank_deg degrees', (row) => {
    const speed = metresPerSecondFromKnots(row.tas_kt);
    const bank = radiansFromDegrees(row.bank_deg);
    expect(turnRadiusMetres(speed, bank)).toBeCloseTo(row.exact_R_m, 2);
    expect(feetFromMetres(turnRadiusMetres(speed, bank, HANDBOOK_TURN))).toBeCloseTo(row.handbook_R_ft, 1);
    expect(degreesFromRadians(turnRateRadiansPerSecond(speed, bank))).toBeCloseTo(row.exact_rate_deg_s, 4);
    expect(degreesFromRadians(turnRateRadiansPerSecond(speed, bank, HANDBOOK_TURN))).toBeCloseTo(row.handbook_rate_deg_s, 3);
    expect(turnLoadFactor(bank)).toBeCloseTo(row.load_factor, 5);
    expect(Math.sqrt(turnLoadFactor(bank))).toBeCloseTo(row.stall_multiplier, 5);
  });

  test('240 kt at 5.25 degrees a second takes 49 degrees of bank', () => {
    const bank = bankForRateRadians(metresPerSecondFromKnots(240), radiansFromDegrees(5.25));
    expect(degreesFromRadians(bank)).toBeCloseTo(49, 0);
  });
});

test('bank and speed for a radius undo the radius', () => {
  const radius = turnRadiusMetres(60, 0.7);
  expect(bankForRadiusRadians(60, radius)).toBeCloseTo(0.7, 12);
  expect(airspeedForRadiusMetresPerSecond(radius, 0.7)).toBeCloseTo(60, 10);
});

test.each([0, Math.PI / 2, -0.1, Number.NaN])('a bank of %d is refused by name', (bank) => {
  expect(() => turnRadiusMetres(60, bank)).toThrow(RangeError);
  expect(() => turnRadiusMetres(60, bank)).toThrow(/bankRadians/);
});
