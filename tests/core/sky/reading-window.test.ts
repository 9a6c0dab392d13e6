import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { letterSmokes } from '../../../src/core/sky/letter-smoke.ts';
import { plumeSpread } from '../../../src/core/sky/plume.ts';
import { READING_LIMITS, type ReadingConditions, readingWindow } from '../../../src/core/sky/reading-window.ts';
import { SMOKE_RANGE } from '../../../src/core/sky/smoke-range.ts';
import { type Trail, trailsFromPlan } from '../../../src/core/sky/trail.ts';
import { plannedText } from './planned.ts';

/** One straight stroke of smoke, laid at once, from a point along a direction. */
function stroke(letterIndex: number, eastMetres: number, northMetres: number, directionRadians: number, lengthMetres: number, laidAtSeconds = 0): Trail {
  const points = Array.from({ length: 21 }, (_, index) => ({
    airEastMetres: eastMetres + ((lengthMetres * index) / 20) * Math.cos(directionRadians),
    airNorthMetres: northMetres + ((lengthMetres * index) / 20) * Math.sin(directionRadians),
    laidAtSeconds,
  }));
  return { shipIndex: 0, letterIndex, character: 'I', points, kilogramsPerMetre: 0.006, heightStepMetres: 0 };
}

const CONDITIONS: ReadingConditions = {
  letterHeightMetres: 1_000,
  wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
  shear: { eastPerSecond: 0, northPerSecond: 0 },
  layerAboveSiteMetres: 3_000,
  visibilityMetres: null,
  facingRadians: 0,
};

/** Strokes that hang 3 km up and 3 km to the north of the crowd. */
const near = (letterIndex: number, east: number, direction = Math.PI / 2, length = 1_000, laidAt = 0): Trail =>
  stroke(letterIndex, east, 2_500, direction, length, laidAt);

describe('what ends a letter', () => {
  test("spread: when s_h passes 0.16 of the height, by the plume's own formula", () => {
    const found = readingWindow([near(0, 0)], CONDITIONS);
    expect(found.first).toEqual({ letterIndex: 0, character: 'I', endedBy: 'spread' });
    for (const [name, at] of [
      ['low', found.until.lowSeconds],
      ['likely', found.until.likelySeconds],
      ['high', found.until.highSeconds],
    ] as const) {
      expect(plumeSpread(at, 0, SMOKE_RANGE[name].air).horizontalMetres).toBeCloseTo(160, 0);
    }
    // (160^2 - 5^2) / 2 D_h.
    expect(found.until.highSeconds).toBeCloseTo(25_575 / 10, 0);
    expect(found.until.likelySeconds).toBeCloseTo(25_575 / 20, 0);
    expect(found.until.lowSeconds).toBeCloseTo(25_575 / 40, 0);
  });

  test('a K sooner: at 0.14', () => {
    const found = readingWindow([{ ...near(0, 0), character: 'K' }], CONDITIONS);
    expect(plumeSpread(found.until.likelySeconds, 0, SMOKE_RANGE.likely.air).horizontalMetres).toBeCloseTo(140, 0);
  });

  test('faint: a quarter of the oil', () => {
    const thin = { ...near(0, 0), kilogramsPerMetre: 0.0015 };
    const found = readingWindow([thin], CONDITIONS);
    expect(found.first?.endedBy).toBe('faint');
    // 0.0015 * 6800 / (sqrt(2 pi) s) = -ln(1 - 0.07) at s = 56.07 m; s^2 = 25 + 20 t.
    expect(found.until.likelySeconds).toBeCloseTo((56.07 ** 2 - 25) / 20, 0);
    expect(found.letters[0]?.gone.likelySeconds).toBeGreaterThan(found.until.likelySeconds);
    expect(found.letters[0]?.gone.highSeconds).toBeGreaterThan(found.letters[0]?.gone.likelySeconds ?? NaN);
  });

  test('haze ends it sooner', () => {
    const thin = { ...near(0, 0), kilogramsPerMetre: 0.0015 };
    const clear = readingWindow([thin], CONDITIONS).until.likelySeconds;
    expect(readingWindow([thin], { ...CONDITIONS, visibilityMetres: 7_300 }).until.likelySeconds).toBeLessThan(0.5 * clear);
  });

  test('lost in haze and found again as it drifts nearer: the first loss counts', () => {
    // 9 km off and coming at 10 m/s in air that takes over 3 km of height what even haze of 24 km takes: under 0.07 from about 140 s to 640 s, by the formulas alone.
    const conditions = { ...CONDITIONS, visibilityMetres: 8_812, wind: { eastMetresPerSecond: 0, northMetresPerSecond: -10 } };
    const found = readingWindow([stroke(0, 0, 8_500, Math.PI / 2, 1_000)], conditions);
    expect(found.first?.endedBy).toBe('faint');
    expect(found.until.likelySeconds).toBeGreaterThan(110);
    expect(found.until.likelySeconds).toBeLessThan(170);
  });

  test('merged: two strokes 240 m apart, when 2.4 spreads are that', () => {
    const found = readingWindow([near(0, 0), near(0, 240)], CONDITIONS);
    expect(found.first?.endedBy).toBe('merged');
    expect(plumeSpread(found.until.likelySeconds, 0, SMOKE_RANGE.likely.air).horizontalMetres).toBeCloseTo(100, 0);
  });

  test('too far: carried off by the wind until its depth shows under 20 minutes of arc', () => {
    const conditions = { ...CONDITIONS, wind: { eastMetresPerSecond: 0, northMetresPerSecond: 30 } };
    const found = readingWindow([near(0, 0)], { ...conditions, letterHeightMetres: 600 }, { ...READING_LIMITS, spreadPerHeight: 1 });
    expect(found.first?.endedBy).toBe('too far');
    // H sin^2(e) / h = 20' with the middle (its ink's) 3,000 m + 30 t away, 3 km up; the earth's bend takes a little more.
    const sine = Math.sqrt((((20 / 60) * Math.PI) / 180 / 600) * 3_000);
    const distance = 3_000 / Math.tan(Math.asin(sine));
    expect(Math.abs(found.until.likelySeconds - (distance - 3_000) / 30)).toBeLessThan(25);
  });

  test('still reading after three hours in air that does nothing', () => {
    const still = {
      air: { horizontalSquareMetresPerSecond: 0, verticalSquareMetresPerSecond: 0, initialHorizontalMetres: 5, initialVerticalMetres: 5 },
      extinctionSquareMetresPerKilogram: 6_800,
      assumedShearPerSecond: 0,
    };
    const found = readingWindow([near(0, 0)], { ...CONDITIONS, smoke: { low: still, likely: still, high: still } });
    expect(found.first).toBeNull();
    expect(found.letters[0]?.endedBy).toBe('still reading');
    expect(found.until.likelySeconds).toBe(3 * 3_600);
  });
});

describe('shear', () => {
  const shear = { eastPerSecond: 0.01, northPerSecond: 0 };
  test('widens strokes across it and spares those along it', () => {
    const across = readingWindow([near(0, 0)], { ...CONDITIONS, shear }).until;
    const along = readingWindow([near(0, -500, 0)], { ...CONDITIONS, shear }).until;
    const none = readingWindow([near(0, 0)], CONDITIONS).until;
    expect(along.likelySeconds).toBeCloseTo(none.likelySeconds, 0);
    expect(across.likelySeconds).toBeLessThan(0.85 * none.likelySeconds);
  });

  test('unknown shear is assumed, and is never better than none', () => {
    const unknown = readingWindow([near(0, 0)], { ...CONDITIONS, shear: null }).until;
    const none = readingWindow([near(0, 0)], CONDITIONS).until;
    expect(unknown.lowSeconds).toBeLessThan(none.lowSeconds);
    expect(unknown.highSeconds).toBe(none.highSeconds);
  });
});

describe('the whole text', () => {
  const plan = plannedText('TOY', { oilKilogramsPerSecond: 0.3 });
  const conditions = { ...CONDITIONS, letterHeightMetres: 1_200 };
  const found = readingWindow(trailsFromPlan(plan, 60), conditions);

  test('stands from its last smoke, and ends with its first letter', () => {
    expect(found.fromSeconds).toBeCloseTo(plan.durationSeconds, 6);
    expect(found.letters.map((letter) => letter.character).join('')).toBe('TOY');
    expect(found.until.likelySeconds).toBe(Math.min(...found.letters.map((letter) => letter.until.likelySeconds)));
    const oldest = found.letters.reduce((one, other) => (other.fromSeconds < one.fromSeconds ? other : one));
    expect(found.first?.letterIndex).toBe(oldest.letterIndex);
  });

  test('soonest, likely, latest stand in that order, and each letter is gone after it is lost', () => {
    for (const { until, gone } of found.letters) {
      expect(until.lowSeconds).toBeLessThanOrEqual(until.likelySeconds);
      expect(until.likelySeconds).toBeLessThanOrEqual(until.highSeconds);
      expect(gone.likelySeconds).toBeGreaterThanOrEqual(until.likelySeconds);
    }
  });

  test('no smoke at all is never read', () => {
    const dry = trailsFromPlan(plannedText('TOY', { oilKilogramsPerSecond: 0 }), 60);
    const nothing = readingWindow(dry, conditions);
    expect(nothing.first?.endedBy).toBe('faint');
    expect(nothing.until.likelySeconds).toBeLessThanOrEqual(nothing.fromSeconds);
    expect(readingWindow([], conditions)).toMatchObject({ letters: [], first: null });
  });

  test('more of anything that spreads ends it no later', () => {
    const shears = fc.double({ min: 0, max: 0.03, noNaN: true });
    const trails = trailsFromPlan(plan, 120);
    fc.assert(
      fc.property(shears, shears, (one, other) => {
        const at = (north: number) => readingWindow(trails, { ...conditions, shear: { eastPerSecond: 0, northPerSecond: north } }).until.likelySeconds;
        expect(at(Math.max(one, other))).toBeLessThanOrEqual(at(Math.min(one, other)) + 0.2);
      }),
      { numRuns: 15 },
    );
  });
});

describe('spacing of strokes', () => {
  const spacing = (trails: Trail[]): number => letterSmokes(trails, 1_000, null)[0]?.spacingMetres ?? NaN;

  test('the bars of an E stand half its height apart', () => {
    const e = [near(0, 0), ...[0, 500, 1_000].map((north) => stroke(0, 0, 2_500 + north, 0, 600))];
    expect(spacing(e)).toBeCloseTo(500, 6);
  });

  test('a stroke alone has no neighbour; strokes that only meet are not merged', () => {
    expect(spacing([near(0, 0)])).toBe(Infinity);
    const v = [near(0, 0, (75 * Math.PI) / 180), near(0, 0, (105 * Math.PI) / 180)];
    expect(spacing(v)).toBe(Infinity);
  });

  test('a parallel stroke farther along is no neighbour', () => {
    expect(spacing([near(0, 0), stroke(0, 300, 4_500, Math.PI / 2, 1_000)])).toBe(Infinity);
  });

  test('beside a stem alone the next letter counts whichever way it runs, beside any other letter only alongside', () => {
    // A stroke at 45 degrees to the stem, 300 m from it at its foot and 1,300 m at its top: 800 m half way.
    const slanted = stroke(1, 300, 2_500, Math.PI / 4, 1_000 * Math.SQRT2);
    expect(Math.abs(spacing([near(0, 0), slanted]) - 800)).toBeLessThan(100);
    const foot = stroke(0, 0, 2_500, Math.PI, 400);
    expect(spacing([near(0, 0), foot, slanted])).toBe(Infinity);
  });

  test('the next letter counts', () => {
    expect(spacing([near(0, 0), near(1, 300)])).toBeCloseTo(300, 6);
    expect(spacing([near(0, 0), near(2, 300)])).toBe(Infinity);
  });
});
