import type { ShearVector } from '../../earth/wind-profile.ts';
import { letterSmokes, letterSpreadMetres } from '../../sky/letter-smoke.ts';
import { READING_LIMITS } from '../../sky/reading-window.ts';
import { SMOKE_RANGE, type SmokeCase } from '../../sky/smoke-range.ts';
import type { Trail } from '../../sky/trail.ts';
import type { Measured } from '../measured.ts';

/** What somebody on the ground said of a letter, and when. */
export interface LetterRating {
  readonly letterIndex: number;
  /** Since the datum. */
  readonly atSeconds: number;
  readonly reads: 'well' | 'hardly' | 'no';
}

/** When a letter stopped reading, as far as the ratings tell: not before, and not after (Infinity when never said). */
export interface RatedEnd {
  readonly letterIndex: number;
  readonly notBeforeSeconds: number;
  readonly notAfterSeconds: number;
}

/** Observers differ in when they call a letter gone by this much of its age, one standard deviation; an assumption. */
const JUDGEMENT_SIGMA = 0.2;
/** Diffusivities looked at, m2/s: evenly in their logarithm, well beyond the 5 to 20 that were measured. */
const LEAST = 0.5;
const MOST = 200;
const STEPS = 240;

/** When each letter stopped reading, from ratings in any order; a letter nobody rated is not among them. */
export function ratedEnds(ratings: readonly LetterRating[]): RatedEnd[] {
  const letters = [...new Set(ratings.map(({ letterIndex }) => letterIndex))].sort((one, other) => one - other);
  return letters.map((letterIndex) => {
    const own = ratings.filter((rating) => rating.letterIndex === letterIndex);
    const reading = own.filter(({ reads }) => reads !== 'no').map(({ atSeconds }) => atSeconds);
    const notBeforeSeconds = reading.length === 0 ? 0 : Math.max(...reading);
    const gone = own.filter(({ reads, atSeconds }) => reads === 'no' && atSeconds > notBeforeSeconds).map(({ atSeconds }) => atSeconds);
    return { letterIndex, notBeforeSeconds, notAfterSeconds: gone.length === 0 ? Infinity : Math.min(...gone) };
  });
}

/**
 * The horizontal diffusivity that explains when the letters stopped reading: for each value, the time at which each
 * letter's spread passes the share of its height at which readers fail; how likely the ratings are then, with every
 * observer's judgement off by a fifth; the mean and the deviation of the logarithm over all values. Shear and the
 * rest of the smoke are taken as the `likely` case has them.
 *
 * On simulated ratings the value comes out within 30 % (tests/core/debrief/spreading.test.ts).
 *
 * @returns square metres a second with the standard error of its logarithm times the value; null for under two letters
 * of which somebody saw the end
 */
export function spreadingFromRatings(
  trails: readonly Trail[],
  ends: readonly RatedEnd[],
  letterHeightMetres: number,
  shear: ShearVector | null,
): Measured | null {
  const letters = letterSmokes(
    trails.filter(({ letterIndex }) => letterIndex >= 0),
    letterHeightMetres,
    shear,
  );
  const pairs = letters.flatMap((letter) => ends.filter((end) => end.letterIndex === letter.letterIndex).map((end) => ({ letter, end })));
  const seenEnding = pairs.filter(({ end }) => end.notAfterSeconds < Infinity);
  if (seenEnding.length < 2) return null;
  const limitMetres = READING_LIMITS.spreadPerHeight * letterHeightMetres;
  let [weightSum, mean, square] = [0, 0, 0];
  const likelihoods = Array.from({ length: STEPS + 1 }, (_, step) => {
    const logarithm = Math.log(LEAST) + (Math.log(MOST / LEAST) * step) / STEPS;
    const smoke = caseWith(Math.exp(logarithm));
    const logLikelihood = pairs.reduce((sum, { letter, end }) => {
      const age = endAgeSeconds((atSeconds) => letterSpreadMetres(letter, smoke, atSeconds), letter.lastSmokeSeconds, limitMetres);
      const chance = chanceBetween(end.notBeforeSeconds - letter.lastSmokeSeconds, end.notAfterSeconds - letter.lastSmokeSeconds, age);
      return sum + Math.log(Math.max(1e-12, chance));
    }, 0);
    return { logarithm, logLikelihood };
  });
  const best = likelihoods.reduce((most, { logLikelihood }) => Math.max(most, logLikelihood), -Infinity);
  for (const { logarithm, logLikelihood } of likelihoods) {
    const weight = Math.exp(logLikelihood - best);
    weightSum += weight;
    mean += weight * logarithm;
    square += weight * logarithm * logarithm;
  }
  mean /= weightSum;
  const value = Math.exp(mean);
  return { value, sigma: value * Math.sqrt(Math.max(0, square / weightSum - mean * mean)), count: seenEnding.length };
}

/** The likely smoke with another horizontal diffusivity. */
export function caseWith(horizontalSquareMetresPerSecond: number): SmokeCase {
  return { ...SMOKE_RANGE.likely, air: { ...SMOKE_RANGE.likely.air, horizontalSquareMetresPerSecond } };
}

/** How long after its last smoke a letter's spread passes a limit; found to a second within three hours. */
function endAgeSeconds(spreadMetres: (atSeconds: number) => number, lastSmokeSeconds: number, limitMetres: number): number {
  let low = 0;
  let high = 10_800;
  if (spreadMetres(lastSmokeSeconds) >= limitMetres) return 1;
  while (high - low > 1) {
    const middle = (low + high) / 2;
    if (spreadMetres(lastSmokeSeconds + middle) >= limitMetres) high = middle;
    else low = middle;
  }
  return high;
}

/** The chance that a judged end falls between two ages when the true one is `ageSeconds`, log-normal. */
function chanceBetween(fromSeconds: number, toSeconds: number, ageSeconds: number): number {
  const share = (seconds: number): number => (seconds <= 0 ? 0 : seconds === Infinity ? 1 : normalShare(Math.log(seconds / ageSeconds) / JUDGEMENT_SIGMA));
  return share(toSeconds) - share(fromSeconds);
}

/** The normal distribution's share below z, within 7.5e-8 (Abramowitz and Stegun 1964, 26.2.17). */
function normalShare(z: number): number {
  const t = 1 / (1 + 0.231_641_9 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.319_381_53 + t * (-0.356_563_782 + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
  return z >= 0 ? 1 - tail : tail;
}
