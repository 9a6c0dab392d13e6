import type { PathSegment } from '../units/arc.ts';
import type { AirPath, AirPose } from './air-path.ts';
import { DUBINS_WORDS, type DubinsWord, solveDubinsWord } from './dubins-word.ts';

/** A turn-limited path between two poses: at most three pieces, each a full-rate turn or a line. */
export interface DubinsPath {
  readonly word: DubinsWord;
  /** Pieces of length zero are left out. */
  readonly path: AirPath;
  readonly lengthMetres: number;
}

/** The three pieces of the word being solved: an array of its own for each of thousands a second would cost more than its lengths. */
const pieces = new Float64Array(3);

function pathOfWord(word: DubinsWord, from: AirPose, to: AirPose, radiusMetres: number, mostMetres: number): DubinsPath | null {
  if (!solveDubinsWord(word, from, to, radiusMetres, pieces)) return null;
  // No piece is shorter than zero.
  const lengthSumMetres = pieces[0]! + pieces[1]! + pieces[2]!;
  if (lengthSumMetres > mostMetres) return null;
  const segments: PathSegment[] = [];
  for (let index = 0; index < 3; index += 1) {
    const lengthMetres = pieces[index]!;
    if (lengthMetres <= 0) continue;
    const letter = word[index];
    segments.push({ lengthMetres, curvaturePerMetre: letter === 'S' ? 0 : (letter === 'L' ? 1 : -1) / radiusMetres });
  }
  return { word, path: { start: from, segments }, lengthMetres: lengthSumMetres };
}

/**
 * The paths of the six words LSL, RSR, LSR, RSL, RLR, LRL that exist between two poses, in that order of words:
 * four to six when the turning circles are far or near, so that a caller may prefer one for more than its length.
 * The shortest of them is the shortest path of curvature at most 1 / radius there is (Dubins 1957).
 *
 * @param radiusMetres positive, otherwise RangeError
 * @param mostMetres longer ones are left out
 */
export function dubinsCandidates(from: AirPose, to: AirPose, radiusMetres: number, mostMetres = Infinity): DubinsPath[] {
  const paths: DubinsPath[] = [];
  for (const word of DUBINS_WORDS) {
    const path = pathOfWord(word, from, to, radiusMetres, mostMetres);
    if (path !== null) paths.push(path);
  }
  return paths;
}

/**
 * The shortest turn-limited path (Dubins 1957; formulas by circle centres after Shkel and Lumelsky 2001). Its end
 * misses the goal by at most a micrometre; identical poses give length 0, not a full circle. Of equally short
 * words the first in the order of {@link dubinsCandidates} is returned. From (0, 0, east) to 1,000 m behind with
 * the same heading and a radius of 200 m: LSL, 2256.637061 m.
 *
 * @oracle
 */
export function shortestDubins(from: AirPose, to: AirPose, radiusMetres: number): DubinsPath {
  let best: DubinsPath | null = null;
  for (const candidate of dubinsCandidates(from, to, radiusMetres)) {
    if (best === null || candidate.lengthMetres < best.lengthMetres) best = candidate;
  }
  // LSL and RSR exist between any two poses, so only a pose that is not a number leaves none.
  if (best === null) throw new RangeError(`poses must be finite: ${JSON.stringify({ from, to })}`);
  return best;
}
