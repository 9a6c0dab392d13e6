import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { separationRadians, sunAt, sunDay } from '../../../src/core/earth/sun.ts';
import { CALM, windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { airFromLetter } from '../../../src/core/paths/letter-frame.ts';
import { readPlace } from '../../../src/core/plan/place.ts';
import {
  bestFacing,
  facingGrid,
  type FacingCell,
  type FacingRequest,
  strokeDirections,
  SUN_MARGIN_RADIANS,
  windAxisFacings,
} from '../../../src/core/place/facing-choice.ts';
import { layerPoint, seenFrom } from '../../../src/core/sky/perspective.ts';
import { degreesFromRadians, radiansFromDegrees, signedRadians } from '../../../src/core/units/angle.ts';
import { metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';
import { plannedText } from '../sky/planned.ts';

const rad = radiansFromDegrees;
const facings = Array.from({ length: 24 }, (_, index) => rad(index * 15));
const site = { latitudeDegrees: 44, longitudeDegrees: -74, elevationMetres: 500 };
const NOON = sunDay(site, Date.UTC(2027, 5, 19, 17)).noonMilliseconds;
const HOUR = 3_600_000;
const REQUEST: FacingRequest = {
  site,
  textWidthMetres: 4_000,
  letterHeightMetres: 1_200,
  layerAboveSiteMetres: 2_700,
  viewElevationRadians: rad(35),
  wind: windVectorFrom({ fromRadians: rad(75), speedMetresPerSecond: metresPerSecondFromKnots(12) }),
  writingSeconds: 500,
  readingSeconds: 600,
  strokes: [[{ directionRadians: Math.PI / 2, lengthMetres: 1_200 }], [{ directionRadians: 0, lengthMetres: 600 }]],
  mayTurnStrokes: false,
  crowdFacingRadians: null,
  facingsRadians: facings,
  readTimesMilliseconds: [NOON],
};

/** The least angle between sun and text, worked out apart from the grid: letters densely sampled, every 10 s. */
function truthMargin(request: FacingRequest, facingRadians: number, readMilliseconds: number): number | null {
  const place = readPlace({ facingRadians, viewElevationRadians: request.viewElevationRadians, layerAboveSiteMetres: request.layerAboveSiteMetres });
  let least: number | null = null;
  for (let after = 0; after <= request.readingSeconds; after += 10) {
    const sun = sunAt(request.site, readMilliseconds + after * 1_000);
    if (sun.elevationRadians < 0) continue;
    const middle = {
      airEastMetres: place.eastMetres + request.wind.eastMetresPerSecond * after,
      airNorthMetres: place.northMetres + request.wind.northMetresPerSecond * after,
    };
    for (let x = -0.5; x <= 0.501; x += 0.02) {
      for (let y = -0.5; y <= 0.501; y += 0.1) {
        const point = airFromLetter({ xMetres: x * request.textWidthMetres, yMetres: y * request.letterHeightMetres }, { facingRadians, middle });
        const seen = seenFrom(layerPoint({ eastMetres: point.airEastMetres, northMetres: point.airNorthMetres }, request.layerAboveSiteMetres), {
          eastMetres: 0,
          northMetres: 0,
          upMetres: 0,
        });
        const margin = separationRadians(sun, seen);
        if (least === null || margin < least) least = margin;
      }
    }
  }
  return least;
}

const facing = (cells: readonly FacingCell[], degrees: number): FacingCell => {
  const found = cells.find((cell) => Math.abs(signedRadians(cell.facingRadians - rad(degrees))) < 1e-9);
  if (found === undefined) throw new Error(`no cell at ${degrees}`);
  return found;
};

describe('the sun and the crowd', () => {
  const cells = facingGrid({ ...REQUEST, readTimesMilliseconds: [NOON - 3 * HOUR] });
  const sun = sunAt(site, NOON - 3 * HOUR);

  test('one cell for every hour and facing', () => {
    expect(cells).toHaveLength(24);
    const grid = facingGrid({ ...REQUEST, readTimesMilliseconds: [NOON, NOON + HOUR] });
    expect(grid).toHaveLength(48);
    expect(grid[24]?.readMilliseconds).toBe(NOON + HOUR);
  });

  test('margins are those of a dense sampling: within 0.1 degrees where they matter, 1.5 with the sun among the letters', () => {
    for (const cell of cells) {
      const truth = truthMargin(REQUEST, cell.facingRadians, cell.readMilliseconds) ?? NaN;
      const error = Math.abs(degreesFromRadians((cell.sunMarginRadians ?? NaN) - truth));
      expect(error).toBeLessThan(degreesFromRadians(truth) > 15 ? 0.1 : 1.5);
    }
  });

  test('towards the sun it is too near, away from it is not', () => {
    const towards = cells.reduce((one, other) =>
      Math.abs(signedRadians(one.facingRadians - sun.azimuthRadians)) < Math.abs(signedRadians(other.facingRadians - sun.azimuthRadians)) ? one : other,
    );
    expect(towards.sunTooNear).toBe(true);
    expect(bestFacing(cells)?.sunTooNear).toBe(false);
  });

  test('night is dark, and has no margin', () => {
    const night = facingGrid({ ...REQUEST, readTimesMilliseconds: [NOON + 12 * HOUR] });
    expect(night.every((cell) => cell.dark && cell.sunMarginRadians === null && !cell.sunTooNear)).toBe(true);
    expect(bestFacing([...night, ...cells])?.dark).toBe(false);
    expect(bestFacing([])).toBeNull();
  });
});

describe('never within 25 degrees of the sun when another facing avoids it', () => {
  /** A year of hours at three latitudes, the site turned through all longitudes as well. */
  const cases = fc.record({
    latitudeDegrees: fc.constantFrom(-35, 8, 64),
    longitudeDegrees: fc.double({ min: -180, max: 180, noNaN: true }),
    hour: fc.integer({ min: 0, max: 8_759 }),
    viewDegrees: fc.double({ min: 20, max: 70, noNaN: true }),
    windFrom: fc.double({ min: 0, max: 359, noNaN: true }),
    windKnots: fc.double({ min: 0, max: 40, noNaN: true }),
    crowd: fc.option(fc.double({ min: 0, max: 6.28, noNaN: true })),
  });
  const strokes = REQUEST.strokes;

  test('holds against a denser sampling of its own', () => {
    let avoided = 0;
    let unavoidable = 0;
    fc.assert(
      fc.property(cases, ({ latitudeDegrees, longitudeDegrees, hour, viewDegrees, windFrom, windKnots, crowd }) => {
        const request: FacingRequest = {
          ...REQUEST,
          site: { latitudeDegrees, longitudeDegrees, elevationMetres: 0 },
          viewElevationRadians: rad(viewDegrees),
          wind: windVectorFrom({ fromRadians: rad(windFrom), speedMetresPerSecond: metresPerSecondFromKnots(windKnots) }),
          crowdFacingRadians: crowd,
          strokes,
          facingsRadians: Array.from({ length: 12 }, (_, index) => rad(index * 30)),
          readTimesMilliseconds: [Date.UTC(2027, 0, 1) + hour * HOUR],
        };
        const cells = facingGrid(request);
        const best = bestFacing(cells);
        if (best === null) throw new Error('no cell');
        const truth = truthMargin(request, best.facingRadians, best.readMilliseconds);
        if (truth === null || truth >= SUN_MARGIN_RADIANS) {
          avoided += 1;
          return;
        }
        unavoidable += 1;
        for (const cell of cells) {
          expect(truthMargin(request, cell.facingRadians, cell.readMilliseconds)).toBeLessThan(SUN_MARGIN_RADIANS + rad(0.3));
        }
      }),
      { numRuns: 150 },
    );
    expect(avoided).toBeGreaterThan(100);
    expect(unavoidable).toBeLessThan(30);
  }, 60_000);
});

describe('the sun and the pilot', () => {
  test('strokes flown into it count, unless they may be turned', () => {
    // An evening sun in the west north west; the crowd looks north, so y runs south and reading east.
    const evening = (sunDay(site, NOON).setMilliseconds ?? NaN) - HOUR;
    const azimuth = sunAt(site, evening).azimuthRadians;
    const toSun = { ...REQUEST, facingsRadians: [azimuth], readTimesMilliseconds: [evening], readingSeconds: 60, writingSeconds: 60 };
    // Letters' bottoms point along the facing: a stroke downwards is flown towards the sun.
    const down = facingGrid({ ...toSun, strokes: [[{ directionRadians: -Math.PI / 2, lengthMetres: 100 }], [{ directionRadians: 0, lengthMetres: 300 }]] });
    expect(down[0]?.glareShare).toBeCloseTo(0.25, 9);
    const up = facingGrid({ ...toSun, strokes: [[{ directionRadians: Math.PI / 2, lengthMetres: 100 }]] });
    expect(up[0]?.glareShare).toBe(0);
    const turned = facingGrid({ ...toSun, mayTurnStrokes: true, strokes: [[{ directionRadians: -Math.PI / 2, lengthMetres: 100 }]] });
    expect(turned[0]?.glareShare).toBe(0);
    expect(down[0]?.score).toBeLessThan(up[0]?.score ?? NaN);
  });

  test("a plan's own strokes, in the letter frame", () => {
    const frame = { facingRadians: rad(200), middle: { airEastMetres: 0, airNorthMetres: 0 } };
    const strokes = strokeDirections(plannedText('I', { frame }));
    expect(strokes.flat().every(({ directionRadians }) => Math.abs(Math.cos(directionRadians)) < 1e-9)).toBe(true);
  });
});

describe('wind and crowd', () => {
  test('the two facings along the wind have the reading line in it', () => {
    for (const each of windAxisFacings(REQUEST.wind)) {
      expect(facingGrid({ ...REQUEST, facingsRadians: [each] })[0]?.offWindRadians).toBeCloseTo(0, 6);
    }
    expect(windAxisFacings(CALM)).toEqual([]);
    expect(facing(facingGrid(REQUEST), 75).offWindRadians).toBeCloseTo(Math.PI / 2, 6);
  });

  test("the crowd's own facing is preferred, all else alike", () => {
    const cells = facingGrid({ ...REQUEST, wind: CALM, crowdFacingRadians: rad(330), strokes: [] });
    expect(facing(cells, 330).turnRadians).toBeCloseTo(0, 9);
    expect(facing(cells, 330).score).toBeGreaterThan(facing(cells, 300).score);
    expect(facing(cells, 150).turnRadians).toBeCloseTo(Math.PI, 9);
  });

  test('a stronger wind weighs more', () => {
    const across = (knots: number): number =>
      facing(facingGrid({ ...REQUEST, readingSeconds: 0, wind: windVectorFrom({ fromRadians: 0, speedMetresPerSecond: metresPerSecondFromKnots(knots) }) }), 0)
        .score;
    expect(across(14)).toBeLessThan(across(3));
    expect(across(80)).toBe(across(15));
  });

  test('polar day and the antimeridian are hours and places like others', () => {
    const cells = facingGrid({
      ...REQUEST,
      site: { latitudeDegrees: 78, longitudeDegrees: 180, elevationMetres: 0 },
      readTimesMilliseconds: [Date.UTC(2027, 5, 21, 12), Date.UTC(2027, 11, 21, 12)],
    });
    expect(cells.slice(0, 24).every((cell) => !cell.dark)).toBe(true);
    expect(cells.slice(24).every((cell) => cell.dark)).toBe(true);
    expect(() => facingGrid({ ...REQUEST, readingSeconds: -1 })).toThrow(/-1/);
  });
});
