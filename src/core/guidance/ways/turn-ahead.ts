import type { AirPath } from '../../paths/air-path.ts';
import { signedRadians } from '../../units/angle.ts';
import { curvatureAt } from '../../paths/project-on-path.ts';

/** The turn that a path makes from a place on. */
export interface TurnAhead {
  readonly sense: 'left' | 'right';
  /** Signed curvature at the place. */
  readonly curvaturePerMetre: number;
  /** What is left of the turn, positive. */
  readonly toGoRadians: number;
  /** The direction it ends on. */
  readonly endDirectionRadians: number;
  readonly toGoMetres: number;
}

/**
 * The run of same-sided arcs that a path is in at a place, or null on a line.
 *
 * @param directionRadians of the path at the place
 */
export function turnAhead(path: AirPath, alongMetres: number, directionRadians: number): TurnAhead | null {
  const curvaturePerMetre = curvatureAt(path, alongMetres);
  if (curvaturePerMetre === 0) return null;
  const sign = Math.sign(curvaturePerMetre);
  let passedMetres = 0;
  let toGoRadians = 0;
  let toGoMetres = 0;
  for (const segment of path.segments) {
    const endMetres = passedMetres + segment.lengthMetres;
    if (endMetres > alongMetres) {
      if (Math.sign(segment.curvaturePerMetre) !== sign) break;
      const partMetres = endMetres - Math.max(passedMetres, alongMetres);
      toGoMetres += partMetres;
      toGoRadians += partMetres * Math.abs(segment.curvaturePerMetre);
    }
    passedMetres = endMetres;
  }
  return {
    sense: sign > 0 ? 'left' : 'right',
    curvaturePerMetre,
    toGoRadians,
    endDirectionRadians: signedRadians(directionRadians + sign * toGoRadians),
    toGoMetres,
  };
}

const MOST_SHOWN_RADIANS = (200 * Math.PI) / 180;

/**
 * The heading to show for rolling out: the turn's end, or half a circle before it as long as more than 200 degrees
 * are left, since a heading nearly a circle away reads as one that is reached already.
 */
export function rollOutDirection({ toGoRadians, endDirectionRadians }: Pick<TurnAhead, 'toGoRadians' | 'endDirectionRadians'>): number {
  let left = toGoRadians;
  let direction = endDirectionRadians;
  while (left > MOST_SHOWN_RADIANS) {
    left -= Math.PI;
    direction += Math.PI;
  }
  return signedRadians(direction);
}
