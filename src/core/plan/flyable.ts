import { letterPathLengthMetres } from '../letters/letter-path.ts';
import type { DrawnLetter, LetterAlternative } from '../letters/drawn-letter.ts';
import type { ShipModel } from '../paths/ship-model.ts';
import { smallestRadiusMetres } from '../paths/stroke-path.ts';
import { airspeedForRadiusMetresPerSecond, bankForRadiusRadians } from '../paths/turn.ts';

/** Curves may be this much tighter than the writing radius before a letter counts as too small, for rounding. */
const RADIUS_SLACK = 1e-6;

/** The tightest curve of an alternative; Infinity when all its strokes are straight. */
export function alternativeRadiusMetres({ strokes }: LetterAlternative): number {
  return strokes.reduce((least, { path }) => Math.min(least, smallestRadiusMetres(path.segments)), Infinity);
}

/** The alternatives of a letter whose curves the ship can write at its writing bank. */
export function flyableAlternatives(letter: DrawnLetter, model: ShipModel): number[] {
  return letter.alternatives.flatMap((alternative, index) => {
    const written = alternative.strokes.length > 0 && alternative.strokes.every(({ path }) => letterPathLengthMetres(path) > 0);
    return written && alternativeRadiusMetres(alternative) >= model.writingRadiusMetres * (1 - RADIUS_SLACK) ? [index] : [];
  });
}

/** Why the text cannot be written smaller, and what would allow it. */
export interface SmallestHeight {
  readonly heightMetres: number;
  readonly letterIndex: number;
  readonly character: string;
  /** The tightest curve of the limiting letter's kindest alternative, at the height it is drawn now. */
  readonly radiusMetres: number;
  /** The writing bank that flies this curve at the present height and speed. */
  readonly neededBankRadians: number;
  /** The speed that flies it at the present height and writing bank. */
  readonly neededAirspeedMetresPerSecond: number;
}

/**
 * The smallest height at which every letter has an alternative that can be written, and the letter that sets it;
 * null when every letter can be written with straight strokes alone, at any height.
 *
 * @param letterHeightMetres the height at which `letters` are drawn
 */
export function smallestFlyableHeight(
  letters: readonly DrawnLetter[],
  letterHeightMetres: number,
  model: ShipModel,
  writingBankRadians: number,
): SmallestHeight | null {
  let limit: { letter: DrawnLetter; radiusMetres: number } | null = null;
  for (const letter of letters) {
    const radiusMetres = letter.alternatives.reduce((widest, alternative) => Math.max(widest, alternativeRadiusMetres(alternative)), 0);
    if (radiusMetres > 0 && radiusMetres < (limit?.radiusMetres ?? Infinity)) limit = { letter, radiusMetres };
  }
  if (limit === null) return null;
  return {
    heightMetres: (letterHeightMetres * model.writingRadiusMetres) / limit.radiusMetres,
    letterIndex: limit.letter.letterIndex,
    character: limit.letter.character,
    radiusMetres: limit.radiusMetres,
    neededBankRadians: bankForRadiusRadians(model.trueAirspeedMetresPerSecond, limit.radiusMetres),
    neededAirspeedMetresPerSecond: airspeedForRadiusMetresPerSecond(limit.radiusMetres, writingBankRadians),
  };
}
