import { fc } from '../../../property.ts';
import { describe, expect, it } from 'vitest';
import { flownTrails } from '../../../../src/core/debrief/flown-trails.ts';
import { isNews, type Lesson, lessonsFrom, shipAfterLesson } from '../../../../src/core/debrief/lessons/lessons.ts';
import { measuredMean } from '../../../../src/core/debrief/measured.ts';
import { caseWith, ratedEnds, spreadingFromRatings } from '../../../../src/core/debrief/lessons/spreading.ts';
import { DEMO_JOB } from '../../../../src/core/job/demo-job.ts';
import type { WindVector } from '../../../../src/core/earth/wind-vector.ts';
import { letterSmokes, letterSpreadMetres } from '../../../../src/core/sky/letter-smoke.ts';
import { flyWord, meanTrueWind, worldFor } from '../flown-word.ts';
import { knotsFromMetresPerSecond } from '../../../../src/core/units/quantity.ts';
import { simulatedRatings } from '../simulated-ratings.ts';

describe('a measured mean', () => {
  it('leaves blunders out and says how sure it is', () => {
    expect(measuredMean([1, 2, 3, 100], 0)).toEqual({ value: 2, sigma: expect.closeTo(1 / Math.sqrt(3), 9), count: 3 });
    expect(measuredMean([1, 2], 0)).toBeNull();
    expect(measuredMean([5, 5, 5, 5], 0.1)).toEqual({ value: 5, sigma: 0.05, count: 4 });
  });

  it('lies among its observations', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 3, maxLength: 40 }), (values) => {
        const mean = measuredMean(values, 0.1);
        if (mean === null) return;
        expect(mean.value).toBeGreaterThanOrEqual(Math.min(...values) - 1e-9);
        expect(mean.value).toBeLessThanOrEqual(Math.max(...values) + 1e-9);
        expect(mean.sigma).toBeGreaterThan(0);
      }),
    );
  });
});

describe('lessons', () => {
  const world = worldFor(31, { reactionSeconds: 0.7, valveOnSeconds: 1.4, valveOffSeconds: 0.6 });
  const flown = flyWord('WIN', world, { marked: true, seen: true });
  const lessons = lessonsFrom(flown.debrief, [], null);
  const lesson = (kind: Lesson['kind']): Lesson => lessons.find((each) => each.kind === kind)!;

  it('recover what the simulation put in, within what they say of themselves', () => {
    for (const [kind, truth] of [
      ['reaction', 0.7],
      ['valve-on', 1.4],
      ['valve-off', 0.6],
    ] as const) {
      const { suggested } = lesson(kind);
      expect(Math.abs(suggested.value - truth), kind).toBeLessThan(Math.max(0.1, 3 * suggested.sigma));
      expect(suggested.sigma).toBeLessThan(0.2);
    }
    expect(lesson('reaction').from).toBe('switch-marks');
    expect(lesson('valve-on').current).toBe(0.8);
    expect(lesson('writing-bank').suggested.value).toBeGreaterThan(42);
    expect(lesson('writing-bank').suggested.value).toBeLessThan(50);
    expect(Math.abs(lesson('airspeed').suggested.value - 104.2)).toBeLessThan(4);
  });

  it('find the wind that was forecast 10 kt wrong, and know how well', () => {
    const { windFound, windSigmaMetresPerSecond, firstSmokeSeconds, lastSmokeSeconds, windForecast } = flown.debrief.flight;
    const mean = meanTrueWind(flown.truth, firstSmokeSeconds!, lastSmokeSeconds!);
    const offBy = (wind: WindVector): number =>
      Math.hypot(wind.eastMetresPerSecond - mean.eastMetresPerSecond, wind.northMetresPerSecond - mean.northMetresPerSecond);
    expect(knotsFromMetresPerSecond(offBy(windForecast))).toBeGreaterThan(7);
    // One flight of twenty is off by more than 1 kt; all fifty are flown by the show script.
    expect(knotsFromMetresPerSecond(offBy(windFound!))).toBeLessThan(1.5);
    expect(offBy(windFound!) / windSigmaMetresPerSecond!).toBeLessThan(3.5);
    expect(knotsFromMetresPerSecond(windSigmaMetresPerSecond!)).toBeLessThan(1.2);
  });

  it('find the reaction from the turns where no switch was marked', () => {
    const unmarked = lessonsFrom(flyWord('WIN', world).debrief, [], null);
    const reaction = unmarked.find(({ kind }) => kind === 'reaction')!;
    expect(reaction.from).toBe('turns');
    expect(Math.abs(reaction.suggested.value - 0.7)).toBeLessThan(Math.max(0.15, 3 * reaction.suggested.sigma));
    expect(reaction.suggested.sigma).toBeLessThan(0.25);
    // Nobody saw the smoke: nothing is said of the valve.
    expect(unmarked.some(({ kind }) => kind === 'valve-on' || kind === 'spreading')).toBe(false);
  });

  it('are news only when they are off by more than chance', () => {
    const base: Lesson = { kind: 'valve-on', suggested: { value: 1.4, sigma: 0.05, count: 9 }, current: 0.8, from: 'seen-smoke' };
    expect(isNews(base)).toBe(true);
    expect(isNews({ ...base, suggested: { value: 0.85, sigma: 0.01, count: 9 } })).toBe(false);
    expect(isNews({ ...base, suggested: { value: 1.4, sigma: 0.4, count: 3 } })).toBe(false);
  });

  it('change one field of a ship, rounded as it is typed', () => {
    const ship = DEMO_JOB.ships[0]!;
    const after = (kind: Lesson['kind'], value: number) =>
      shipAfterLesson(ship, { kind, suggested: { value, sigma: 0.1, count: 5 }, current: 0, from: 'turns' });
    expect(after('valve-on', 1.4321)).toEqual({ ...ship, valveOnSeconds: 1.4 });
    expect(after('valve-off', -0.2)).toEqual({ ...ship, valveOffSeconds: 0 });
    expect(after('reaction', 0.66)).toEqual({ ...ship, reactionSeconds: 0.7 });
    expect(after('writing-bank', 80)).toEqual({ ...ship, writingBankDegrees: ship.maximumBankDegrees });
    expect(after('airspeed', 101.3)).toEqual({ ...ship, trueAirspeedKnots: 101.5 });
    expect(after('spreading', 20)).toEqual(ship);
  });
});

describe('spreading from ratings', () => {
  const { debrief, setup } = flyWord('VAN', worldFor(32));
  const trails = flownTrails(debrief);
  const letters = letterSmokes(trails, setup.letterHeightMetres, null);

  it.each([4, 10, 25])('comes out within 30 %% of %i m2/s, on average over observers', (truth) => {
    const values = [1, 2, 3, 4, 5, 6].map((seed) => {
      const ratings = simulatedRatings(letters, caseWith(truth), setup.letterHeightMetres, seed);
      return spreadingFromRatings(trails, ratedEnds(ratings), setup.letterHeightMetres, null)!;
    });
    const logarithms = values.map(({ value }) => Math.log(value / truth));
    expect(Math.abs(logarithms.reduce((sum, each) => sum + each, 0) / logarithms.length)).toBeLessThan(Math.log(1.3));
    for (const { value, sigma } of values) {
      expect(sigma / value).toBeGreaterThan(0.05);
      expect(sigma / value).toBeLessThan(0.6);
    }
  });

  it('is monotonic: letters that read longer mean less spreading', () => {
    const ends = (seconds: number) =>
      letters.map(({ letterIndex, lastSmokeSeconds }) => ({
        letterIndex,
        notBeforeSeconds: lastSmokeSeconds + seconds,
        notAfterSeconds: lastSmokeSeconds + seconds + 60,
      }));
    const found = [200, 400, 800, 1600].map((seconds) => spreadingFromRatings(trails, ends(seconds), setup.letterHeightMetres, null)!.value);
    expect(found).toEqual(found.toSorted((one, other) => other - one));
    expect(letterSpreadMetres(letters[0]!, caseWith(found[0]!), letters[0]!.lastSmokeSeconds + 230) / setup.letterHeightMetres).toBeCloseTo(0.16, 1);
  });

  it('is not guessed from one letter, or from letters nobody saw the end of', () => {
    const ends = letters.map(({ letterIndex }) => ({ letterIndex, notBeforeSeconds: 1000, notAfterSeconds: Infinity }));
    expect(spreadingFromRatings(trails, ends, setup.letterHeightMetres, null)).toBeNull();
    expect(spreadingFromRatings(trails, [{ letterIndex: 0, notBeforeSeconds: 500, notAfterSeconds: 560 }], setup.letterHeightMetres, null)).toBeNull();
  });

  it('takes the last time a letter read and the first it did not', () => {
    expect(
      ratedEnds([
        { letterIndex: 1, atSeconds: 300, reads: 'no' },
        { letterIndex: 1, atSeconds: 100, reads: 'well' },
        { letterIndex: 1, atSeconds: 200, reads: 'hardly' },
        { letterIndex: 1, atSeconds: 400, reads: 'no' },
        { letterIndex: 0, atSeconds: 50, reads: 'no' },
        { letterIndex: 2, atSeconds: 90, reads: 'well' },
      ]),
    ).toEqual([
      { letterIndex: 0, notBeforeSeconds: 0, notAfterSeconds: 50 },
      { letterIndex: 1, notBeforeSeconds: 200, notAfterSeconds: 300 },
      { letterIndex: 2, notBeforeSeconds: 90, notAfterSeconds: Infinity },
    ]);
  });
});
