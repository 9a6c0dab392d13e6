import type { ShearVector } from '../earth/wind-profile.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import type { AirPoint } from '../paths/air-path.ts';
import { airFromLetter, letterFromAir } from '../paths/letter-frame.ts';
import { siteFromAir } from '../plan/place.ts';
import { letterDepth, type LetterSmoke, letterSmokes, letterSpreadMetres } from './letter-smoke.ts';
import { type SeenPoint, seenFromSite } from './perspective.ts';
import { shownDepthRadians } from './shown-size.ts';
import { type StandingSpan, standingSpan } from './standing-span.ts';
import { contrastFromDepth, contrastThroughAir, levelRangeMetres } from './plume.ts';
import { SMOKE_RANGE, type SmokeCase, type SmokeRange } from './smoke-range.ts';
import type { Trail } from './trail.ts';

/** What ends a letter: its smoke too wide, too thin, its strokes run together, or it shows too small. */
export type WindowEnd = 'spread' | 'faint' | 'merged' | 'too far' | 'still reading';

/** Seconds since the datum: soonest, likely, latest. */
export interface SecondsRange {
  readonly lowSeconds: number;
  readonly likelySeconds: number;
  readonly highSeconds: number;
}

export interface LetterWindow {
  readonly letterIndex: number;
  readonly character: string;
  /** When its last smoke is laid. */
  readonly fromSeconds: number;
  readonly until: SecondsRange;
  /** What ends it, in the likely case. */
  readonly endedBy: WindowEnd;
  /** When nothing of it is seen any more. */
  readonly gone: SecondsRange;
}

export interface ReadingWindow {
  readonly letters: readonly LetterWindow[];
  /** When the whole text is written: the last smoke of its last letter. */
  readonly fromSeconds: number;
  /** Until its first letter ends; not after `fromSeconds` when the text never reads as a whole. */
  readonly until: SecondsRange;
  /** While it stands level and high enough for the crowd, from `fromSeconds` on: beyond that it leans. Null when it never does. */
  readonly stands: StandingSpan | null;
  /** The letter whose smoke ends first in the likely case, and by what; null when none does within the horizon. */
  readonly first: { readonly letterIndex: number; readonly character: string; readonly endedBy: WindowEnd } | null;
}

/** What is read in which air. */
export interface ReadingConditions {
  readonly letterHeightMetres: number;
  /** At the layer, steady. */
  readonly wind: WindVector;
  /** Null where the winds do not tell; each case then assumes its own. */
  readonly shear: ShearVector | null;
  readonly layerAboveSiteMetres: number;
  /** Azimuth the crowd looks. */
  readonly facingRadians: number;
  /** Null for air that takes no contrast. */
  readonly visibilityMetres: number | null;
  readonly smoke?: SmokeRange;
}

/** From where on a letter is lost. */
export interface ReadingLimits {
  /** Spread over letter height. */
  readonly spreadPerHeight: number;
  /** The same of letters that are lost sooner than others. */
  readonly lostSooner: Readonly<Record<string, number>>;
  readonly contrast: number;
  /** Strokes nearer than this many spreads are one. */
  readonly mergedSpreads: number;
  /** Depth shown: what screens and signs call comfortable (ISO 9241-303, 5.5: 20 to 22 minutes of arc). */
  readonly shownDepthRadians: number;
}

/**
 * Spread and spacing as a text-reading engine loses words drawn as drifting, shearing puffs; set on fifty words in two
 * or three shears. Over twenty others the prediction is 1.12, 1.07 and 1.01 of where the engine stops (shear 0, 0.005
 * and 0.01 a second), its median error 9 %, but 11 of 60 cases part by more than 25 %: an engine, like a reader, goes
 * on guessing a word that looks like no other. Limits letter by letter were tried on 300 cases and foretell no better.
 * Strokes run together at 2.4 spreads, a little before the dip between two of them is gone (2 spreads, Sparrow 1916).
 * Contrast by the same engine, three words: read down to 0.02 in an even sky, to 0.06 or 0.07 in a patchy one.
 */
export const READING_LIMITS: ReadingLimits = {
  spreadPerHeight: 0.16,
  lostSooner: { K: 0.14 },
  contrast: 0.07,
  mergedSpreads: 2.4,
  shownDepthRadians: ((20 / 60) * Math.PI) / 180,
};

/** A contrast nobody sees; a trained eye follows smoke down to the second (Koschmieder 1924: 0.02). */
export const UNSEEN_CONTRAST = 0.05;
export const TRAINED_UNSEEN_CONTRAST = 0.02;

/** No text has been claimed to last longer; beyond it the answer is "still reading". */
const HORIZON_SECONDS = 3 * 3_600;
const SCAN_SECONDS = 60;

/**
 * Until when each letter reads, by what it ends, and the same of the whole text. Each limit is looked for on its own,
 * the first to be passed ends the letter; `low` and `high` repeat it with the smoke that spreads soonest and latest.
 * While the wind turns it, smoke that still reads leans more and more: how long the text stands level is told beside
 * it ({@link standingSpan}). Found to a tenth of a second.
 */
export function readingWindow(trails: readonly Trail[], conditions: ReadingConditions, limits: ReadingLimits = READING_LIMITS): ReadingWindow {
  const { low, likely, high } = conditions.smoke ?? SMOKE_RANGE;
  const letters = letterSmokes(trails, conditions.letterHeightMetres, conditions.shear).map((letter): LetterWindow => {
    const end = (smoke: SmokeCase): { atSeconds: number; by: WindowEnd } => letterEnd(letter, smoke, conditions, limits);
    const gone = (smoke: SmokeCase, contrast: number): number =>
      firstSeconds((at) => seenContrast(letter, smoke, conditions, at) < contrast, letter.lastSmokeSeconds, conditions.visibilityMetres === null);
    const likelyEnd = end(likely);
    return {
      letterIndex: letter.letterIndex,
      character: letter.character,
      fromSeconds: letter.lastSmokeSeconds,
      until: { lowSeconds: end(low).atSeconds, likelySeconds: likelyEnd.atSeconds, highSeconds: end(high).atSeconds },
      endedBy: likelyEnd.by,
      gone: {
        lowSeconds: gone(low, UNSEEN_CONTRAST),
        likelySeconds: gone(likely, UNSEEN_CONTRAST),
        highSeconds: gone(high, TRAINED_UNSEEN_CONTRAST),
      },
    };
  });
  const first = letters.reduce<LetterWindow | null>(
    (soonest, letter) => (soonest === null || letter.until.likelySeconds < soonest.until.likelySeconds ? letter : soonest),
    null,
  );
  const least = (of: (letter: LetterWindow) => number): number => letters.reduce((sum, letter) => Math.min(sum, of(letter)), Infinity);
  const written = letters.reduce((latest, letter) => Math.max(latest, letter.fromSeconds), 0);
  return {
    letters,
    fromSeconds: written,
    until: {
      lowSeconds: letters.length === 0 ? 0 : least((letter) => letter.until.lowSeconds),
      likelySeconds: first?.until.likelySeconds ?? 0,
      highSeconds: letters.length === 0 ? 0 : least((letter) => letter.until.highSeconds),
    },
    stands: standingOf(trails, conditions, written),
    first: first === null || first.endedBy === 'still reading' ? null : { letterIndex: first.letterIndex, character: first.character, endedBy: first.endedBy },
  };
}

/** While the whole text stands for the crowd once it is written; null without any smoke. */
function standingOf(trails: readonly Trail[], { facingRadians, layerAboveSiteMetres, wind }: ReadingConditions, writtenSeconds: number): StandingSpan | null {
  const points = trails.flatMap((trail) => trail.points);
  if (points.length === 0) return null;
  const middle = middleAcross(points, facingRadians);
  return standingSpan((at) => siteFromAir(middle, wind, at), { facingRadians, layerAboveSiteMetres }, writtenSeconds, writtenSeconds + HORIZON_SECONDS);
}

/** Of what was laid: half way along its reading line and half way up it. */
function middleAcross(points: readonly AirPoint[], facingRadians: number): AirPoint {
  const frame = { facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } };
  const across = points.map((point) => letterFromAir(point, frame));
  const half = (of: readonly number[]): number =>
    (of.reduce((least, each) => Math.min(least, each), Infinity) + of.reduce((most, each) => Math.max(most, each), -Infinity)) / 2;
  return airFromLetter({ xMetres: half(across.map(({ xMetres }) => xMetres)), yMetres: half(across.map(({ yMetres }) => yMetres)) }, frame);
}

function letterEnd(letter: LetterSmoke, smoke: SmokeCase, conditions: ReadingConditions, limits: ReadingLimits): { atSeconds: number; by: WindowEnd } {
  const spread = (at: number): number => letterSpreadMetres(letter, smoke, at);
  const widest = (limits.lostSooner[letter.character] ?? limits.spreadPerHeight) * conditions.letterHeightMetres;
  // In clear air smoke only ever spreads and fades; through haze a letter that drifts nearer may gain contrast.
  const clear = conditions.visibilityMetres === null;
  const lost: readonly { by: WindowEnd; isLost: (at: number) => boolean; forGood: boolean }[] = [
    { by: 'spread', isLost: (at) => spread(at) > widest, forGood: true },
    { by: 'faint', isLost: (at) => seenContrast(letter, smoke, conditions, at) < limits.contrast, forGood: clear },
    { by: 'merged', isLost: (at) => limits.mergedSpreads * spread(at) > letter.spacingMetres, forGood: true },
    { by: 'too far', isLost: (at) => shownDepthAt(letter, conditions, at) < limits.shownDepthRadians, forGood: false },
  ];
  let sooner: { atSeconds: number; by: WindowEnd } = { atSeconds: letter.lastSmokeSeconds + HORIZON_SECONDS, by: 'still reading' };
  for (const { by, isLost, forGood } of lost) {
    const atSeconds = firstSeconds(isLost, letter.lastSmokeSeconds, forGood);
    if (atSeconds < sooner.atSeconds) sooner = { atSeconds, by };
  }
  return sooner;
}

function seenContrast(letter: LetterSmoke, smoke: SmokeCase, conditions: ReadingConditions, atSeconds: number): number {
  const contrast = contrastFromDepth(letterDepth(letter, smoke, atSeconds));
  const { rangeMetres } = letterSeen(letter, conditions, atSeconds);
  return contrastThroughAir(contrast, levelRangeMetres(rangeMetres, conditions.layerAboveSiteMetres), conditions.visibilityMetres);
}

function shownDepthAt(letter: LetterSmoke, conditions: ReadingConditions, atSeconds: number): number {
  const { elevationRadians } = letterSeen(letter, conditions, atSeconds);
  if (elevationRadians <= 0) return 0;
  return shownDepthRadians(conditions.letterHeightMetres, conditions.layerAboveSiteMetres, elevationRadians);
}

function letterSeen(letter: LetterSmoke, conditions: ReadingConditions, atSeconds: number): SeenPoint {
  const place = siteFromAir(letter.middle, conditions.wind, atSeconds);
  return seenFromSite(place, conditions.layerAboveSiteMetres);
}

/**
 * The first time from `fromSeconds` on at which something holds; the horizon's end when it never does.
 *
 * @param forGood that what holds once holds ever after, so that halving the horizon finds it
 */
function firstSeconds(holds: (atSeconds: number) => boolean, fromSeconds: number, forGood: boolean): number {
  if (holds(fromSeconds)) return fromSeconds;
  const endSeconds = fromSeconds + HORIZON_SECONDS;
  const stepSeconds = forGood ? HORIZON_SECONDS : SCAN_SECONDS;
  for (let before = fromSeconds; before < endSeconds; before += stepSeconds) {
    if (holds(before + stepSeconds)) return between(before, before + stepSeconds, holds);
  }
  return endSeconds;
}

/** The time between two at which something begins to hold, to a tenth of a second. */
function between(beforeSeconds: number, afterSeconds: number, holds: (atSeconds: number) => boolean): number {
  let [before, after] = [beforeSeconds, afterSeconds];
  while (after - before > 0.1) {
    const middle = (before + after) / 2;
    if (holds(middle)) after = middle;
    else before = middle;
  }
  return after;
}
