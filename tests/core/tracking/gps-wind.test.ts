import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { groundMotion } from '../../../src/core/earth/wind-triangle.ts';
import { windFromVector, type WindVector, windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { type GroundLeg, windFromFourLegs, windFromLegs, windFromThreeLegs, windFromThreeSpeeds } from '../../../src/core/tracking/gps-wind.ts';
import { degreesFromRadians, radiansFromDegrees, signedDegrees } from '../../../src/core/units/angle.ts';
import { knotsFromMetresPerSecond, metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';
import reference from '../../reference/wind.json' with { type: 'json' };

const legsOf = (knots: readonly number[], degrees: readonly number[]): GroundLeg[] =>
  knots.map((speed, index) => ({
    trackRadians: radiansFromDegrees(degrees[index] ?? NaN),
    groundSpeedMetresPerSecond: metresPerSecondFromKnots(speed),
  }));

const three = (legs: GroundLeg[]): [GroundLeg, GroundLeg, GroundLeg] => {
  const [a, b, c] = legs;
  if (a === undefined || b === undefined || c === undefined) throw new Error('three legs');
  return [a, b, c];
};

function spoken(wind: WindVector | undefined): { fromDegrees: number; knots: number } {
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind ?? { eastMetresPerSecond: NaN, northMetresPerSecond: NaN });
  return { fromDegrees: degreesFromRadians(fromRadians), knots: knotsFromMetresPerSecond(speedMetresPerSecond) };
}

describe('three legs (D. Gray, June 1998)', () => {
  const { exact, published } = reference.gps_three_leg;
  const found = windFromThreeLegs(three(legsOf(exact.gs_kt, exact.track_deg)));
  const wind = spoken(found?.wind);

  test('as published', () => {
    expect(knotsFromMetresPerSecond(found?.trueAirspeedMetresPerSecond ?? NaN)).toBeCloseTo(published.tas, 2);
    expect(wind.knots).toBeCloseTo(published.wind_kt, 1);
    expect(wind.fromDegrees).toBeCloseTo(published.wind_from, 1);
  });

  test('to rounding, with the headings', () => {
    expect(knotsFromMetresPerSecond(found?.trueAirspeedMetresPerSecond ?? NaN)).toBeCloseTo(exact.tas_kt, 9);
    expect(wind.knots).toBeCloseTo(exact.wind_speed_kt, 9);
    expect(wind.fromDegrees).toBeCloseTo(exact.wind_from_deg, 9);
    expect(found?.headingsRadians.map(degreesFromRadians)).toEqual(exact.headings_deg.map((each) => expect.closeTo(each, 9)));
  });
});

describe('four legs (National Test Pilot School sample)', () => {
  const { gs, track, published, recomputed_subsets: subsets, geometric_circle_fit_all_four: geometric } = reference.gps_four_leg;
  const [a, b, c, d] = legsOf(gs, track);
  if (a === undefined || b === undefined || c === undefined || d === undefined) throw new Error('four legs');

  test('airspeed and its deviation as published', () => {
    const found = windFromFourLegs([a, b, c, d]);
    expect(knotsFromMetresPerSecond(found?.trueAirspeedMetresPerSecond ?? NaN)).toBeCloseTo(published.tas, 9);
    expect(knotsFromMetresPerSecond(found?.airspeedDeviationMetresPerSecond ?? NaN)).toBeCloseTo(published.tas_sd, 9);
  });

  test.each(subsets)('every three: $track_deg', (row) => {
    const found = windFromThreeLegs(three(legsOf(row.gs_kt, row.track_deg)));
    expect(knotsFromMetresPerSecond(found?.trueAirspeedMetresPerSecond ?? NaN)).toBeCloseTo(row.tas_kt, 9);
    expect(spoken(found?.wind).knots).toBeCloseTo(row.wind_speed_kt, 9);
    expect(spoken(found?.wind).fromDegrees).toBeCloseTo(row.wind_from_deg, 8);
    expect(published.winds_kt_from.some(([knots]) => Math.abs((knots ?? NaN) - row.wind_speed_kt) < 1e-9)).toBe(true);
  });

  test('one circle through all four', () => {
    const found = windFromLegs([a, b, c, d]);
    expect(knotsFromMetresPerSecond(found?.trueAirspeedMetresPerSecond ?? NaN)).toBeCloseTo(geometric.tas_kt, 5);
    expect(spoken(found?.wind).knots).toBeCloseTo(geometric.wind_speed_kt, 4);
    expect(spoken(found?.wind).fromDegrees).toBeCloseTo(geometric.wind_from_deg, 3);
  });

  test('every subset was there', () => expect(subsets).toHaveLength(4));
});

describe('ground speeds alone, headings 120 degrees apart', () => {
  const { rows } = reference.three_headings_120_apart_groundspeed_only;
  test.each(rows)('$true_tas_kt kt in $true_wind_kt kt', (row) => {
    const [first = NaN, second = NaN, third = NaN] = row.gs_kt.map(metresPerSecondFromKnots);
    const found = windFromThreeSpeeds([first, second, third]);
    expect(Math.abs(knotsFromMetresPerSecond(found?.trueAirspeedMetresPerSecond ?? NaN) - row.gs_only_tas_kt)).toBeLessThan(1e-5);
    expect(Math.abs(knotsFromMetresPerSecond(found?.windSpeedMetresPerSecond ?? NaN) - row.gs_only_wind_kt)).toBeLessThan(1e-3);
  });

  test.each(rows)('and with their tracks, $true_tas_kt kt', (row) => {
    const found = windFromThreeLegs(three(legsOf(row.gs_kt, row.track_deg)));
    expect(Math.abs(knotsFromMetresPerSecond(found?.trueAirspeedMetresPerSecond ?? NaN) - row.true_tas_kt)).toBeLessThan(1e-5);
    expect(Math.abs(spoken(found?.wind).knots - row.true_wind_kt)).toBeLessThan(1e-5);
  });

  test('every row was there', () => expect(rows).toHaveLength(5));
  test('speeds that no wind explains', () => {
    expect(windFromThreeSpeeds([1, 1, 100])).toBeNull();
    expect(windFromThreeSpeeds([0, 0, 0])).toBeNull();
  });
});

describe('legs, properties', () => {
  const cases = fc.record({
    tas: fc.double({ min: 40, max: 90, noNaN: true }),
    fromDegrees: fc.double({ min: 0, max: 359, noNaN: true }),
    wind: fc.double({ min: 0.5, max: 35, noNaN: true }),
    heading: fc.double({ min: 0, max: 6.28, noNaN: true }),
    turn: fc.double({ min: 0.6, max: 2.4, noNaN: true }),
  });

  test('what was flown comes back', () => {
    fc.assert(
      fc.property(cases, ({ tas, fromDegrees, wind, heading, turn }) => {
        const truth = windVectorFrom({ fromRadians: radiansFromDegrees(fromDegrees), speedMetresPerSecond: wind });
        const found = windFromThreeLegs(three([0, 1, 2].map((leg) => groundMotion(heading + leg * turn, tas, truth))));
        expect(found?.trueAirspeedMetresPerSecond).toBeCloseTo(tas, 6);
        expect(spoken(found?.wind).knots).toBeCloseTo(knotsFromMetresPerSecond(wind), 6);
        expect(Math.abs(signedDegrees(spoken(found?.wind).fromDegrees - fromDegrees))).toBeLessThan(1e-5);
      }),
    );
  });

  test('legs on a line give none', () => {
    const leg = { trackRadians: 1, groundSpeedMetresPerSecond: 50 };
    expect(windFromThreeLegs([leg, leg, { ...leg, groundSpeedMetresPerSecond: 60 }])).toBeNull();
    expect(windFromFourLegs([leg, leg, { ...leg, trackRadians: 2 }, { ...leg, trackRadians: 3 }])).toBeNull();
    expect(windFromLegs([leg, leg, leg])).toBeNull();
    expect(() => windFromLegs([leg, leg, { ...leg, trackRadians: NaN }])).toThrow(RangeError);
  });
});
