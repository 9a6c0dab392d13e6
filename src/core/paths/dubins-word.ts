import type { AirPose } from './air-path.ts';

/** Which way each of the three pieces goes: left turn, right turn, straight. */
export type DubinsWord = 'LSL' | 'RSR' | 'LSR' | 'RSL' | 'RLR' | 'LRL';

export const DUBINS_WORDS: readonly DubinsWord[] = ['LSL', 'RSR', 'LSR', 'RSL', 'RLR', 'LRL'];

const TURN = 2 * Math.PI;

/** A path may miss its goal by this much, so that rounding never turns a piece of length zero into a full circle. */
const SLACK_METRES = 1e-7;

/** An angle in [0, 2 pi), where less than `slackRadians` under a full turn counts as none. */
function turnOf(radians: number, slackRadians: number): number {
  const rest = radians - TURN * Math.floor(radians / TURN);
  return rest >= TURN - slackRadians ? 0 : rest;
}

/**
 * Lengths of the three pieces of one word, written to `pieces`; false when the word does not exist between the
 * poses (its circles overlap, or lie too far apart for a middle turn).
 *
 * With s = +1 for a left and -1 for a right turn, the first circle has its centre s R to the left of the start, the
 * last likewise of the end. A line tangent to both runs along the line of centres, turned by asin(2 R / D) when the
 * circles are on different sides. A middle turn stands with both on a triangle of sides 2 R, 2 R, D; only the turn
 * of more than half a circle can be shortest.
 *
 * @param radiusMetres positive, otherwise RangeError
 */
export function solveDubinsWord(word: DubinsWord, from: AirPose, to: AirPose, radiusMetres: number, pieces: Float64Array): boolean {
  if (!(radiusMetres > 0 && Number.isFinite(radiusMetres))) {
    throw new RangeError(`radiusMetres must be positive and finite: ${radiusMetres}`);
  }
  const firstSide = word[0] === 'L' ? 1 : -1;
  const lastSide = word[2] === 'L' ? 1 : -1;
  const fromRadians = from.directionRadians;
  const toRadians = to.directionRadians;
  const eastMetres = to.airEastMetres - from.airEastMetres - radiusMetres * (lastSide * Math.sin(toRadians) - firstSide * Math.sin(fromRadians));
  const northMetres = to.airNorthMetres - from.airNorthMetres + radiusMetres * (lastSide * Math.cos(toRadians) - firstSide * Math.cos(fromRadians));
  const centresMetres = Math.hypot(eastMetres, northMetres);
  const centresRadians = Math.atan2(northMetres, eastMetres);
  const circleSlackRadians = SLACK_METRES / radiusMetres;

  if (word[1] !== 'S') {
    const ratio = centresMetres / (4 * radiusMetres);
    if (ratio > 1) return false;
    const middleRadians = TURN - 2 * Math.asin(ratio);
    const firstRadians = turnOf(firstSide * (centresRadians - fromRadians) + middleRadians / 2, circleSlackRadians);
    const lastRadians = turnOf(firstSide * (toRadians - fromRadians) - firstRadians + middleRadians, circleSlackRadians);
    pieces[0] = firstRadians * radiusMetres;
    pieces[1] = middleRadians * radiusMetres;
    pieces[2] = lastRadians * radiusMetres;
    return true;
  }

  let lineRadians = centresRadians;
  let lineMetres = centresMetres;
  if (firstSide !== lastSide) {
    if (centresMetres < 2 * radiusMetres - SLACK_METRES) return false;
    lineMetres = Math.sqrt(Math.max(0, centresMetres ** 2 - 4 * radiusMetres ** 2));
    lineRadians += firstSide * Math.atan2(2 * radiusMetres, lineMetres);
  }
  // Turning the line by a little moves the last centre by that angle times the distance of the centres.
  const lineSlackRadians = centresMetres > SLACK_METRES ? SLACK_METRES / centresMetres : TURN;
  let firstRadians = turnOf(firstSide * (lineRadians - fromRadians), 0);
  let lastRadians = turnOf(lastSide * (toRadians - lineRadians), 0);
  if (TURN - firstRadians <= lineSlackRadians) {
    firstRadians = 0;
    lastRadians = turnOf(lastSide * (toRadians - fromRadians), circleSlackRadians);
  } else if (TURN - lastRadians <= lineSlackRadians) {
    firstRadians = turnOf(firstSide * (toRadians - fromRadians), circleSlackRadians);
    lastRadians = 0;
  }
  pieces[0] = firstRadians * radiusMetres;
  pieces[1] = lineMetres;
  pieces[2] = lastRadians * radiusMetres;
  return true;
}
