import type { LetterRating } from '../../../src/core/debrief/lessons/spreading.ts';
import { type LetterSmoke, letterSpreadMetres } from '../../../src/core/sky/letter-smoke.ts';
import type { SmokeCase } from '../../../src/core/sky/smoke-range.ts';
import { normalFrom, uniformFrom } from '../../flight/random.ts';

/**
 * An observer who looks up every 45 s and calls a letter gone when its spread passes 0.16 of its height, give or take
 * 15 % of the letter's age, letter by letter.
 */
export function simulatedRatings(letters: readonly LetterSmoke[], smoke: SmokeCase, letterHeightMetres: number, seed: number): LetterRating[] {
  const normal = normalFrom(uniformFrom(seed + 77_000));
  return letters.flatMap((letter) => {
    let trueAge = 0;
    while (letterSpreadMetres(letter, smoke, letter.lastSmokeSeconds + trueAge) < 0.16 * letterHeightMetres && trueAge < 10_000) trueAge += 5;
    const judgedAge = trueAge * Math.exp(0.15 * normal());
    const ratings: LetterRating[] = [];
    for (let age = 20; age < judgedAge + 45; age += 45) {
      ratings.push({
        letterIndex: letter.letterIndex,
        atSeconds: letter.lastSmokeSeconds + age,
        reads: age < 0.7 * judgedAge ? 'well' : age < judgedAge ? 'hardly' : 'no',
      });
    }
    return ratings;
  });
}
