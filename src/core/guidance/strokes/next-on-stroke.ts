import type { AirPath } from '../../paths/air-path.ts';
import { curvatureAt } from '../../paths/project-on-path.ts';
import { rollOutDirection, turnAhead } from '../ways/turn-ahead.ts';

/** What a stroke does after what it does now. */
export interface NextOnStroke {
  readonly sense: 'left' | 'right' | 'either';
  /** To roll out on, or of the line; in the frame of the path. */
  readonly directionRadians: number;
  readonly untilMetres: number;
  /** Signed, where it begins; 0 on a line. */
  readonly curvaturePerMetre: number;
}

/** So far into the next arc that it is that arc. */
const INTO_METRES = 0.01;

/**
 * The next turn or line of a stroke after the one it is in at a place; null when that is its last. Arcs of one side are
 * one turn. A line of 100 m and then a right turn, 40 m from its start: right, in 60 m.
 *
 * @param alongMetres from the stroke's start
 */
export function nextOnStroke(path: AirPath, alongMetres: number): NextOnStroke | null {
  const now = Math.sign(curvatureAt(path, Math.max(0, alongMetres)));
  let startMetres = 0;
  let directionRadians = path.start.directionRadians;
  for (const { lengthMetres, curvaturePerMetre } of path.segments) {
    if (startMetres > alongMetres && Math.sign(curvaturePerMetre) !== now) {
      const turn = turnAhead(path, startMetres + INTO_METRES, directionRadians);
      return {
        sense: turn?.sense ?? 'either',
        directionRadians: turn === null ? directionRadians : rollOutDirection(turn),
        untilMetres: startMetres - alongMetres,
        curvaturePerMetre,
      };
    }
    startMetres += lengthMetres;
    directionRadians += lengthMetres * curvaturePerMetre;
  }
  return null;
}
