import type { ShearVector } from '../earth/wind-profile.ts';

/** What it does to the picture when a ship writes at another height than the first. */
export interface HeightStepCost {
  /** How far the step shifts its strokes along the line of sight, in the layer: `step / tan(e)`. */
  readonly parallaxMetres: number;
  /** How far the wind's change over the step carries them away from the others' by the time of reading. */
  readonly shearMetres: number;
  /** Both together over the letters' height. */
  readonly shareOfHeight: number;
  /** Whether words like this were still read. */
  readonly reads: boolean;
}

/**
 * Readers lost words between 60 m with 2 kt per 1,000 ft (0.15 of a letter of 1,200 m at 45 degrees after ten
 * minutes) and 150 m with 5 kt per 1,000 ft (0.76); the limit stands near the kind end. From the project's own
 * prototype, no outside source.
 */
export const READABLE_SHARE_OF_HEIGHT = 0.2;

/**
 * Cost of a height step. A step of 60 m at 45 degrees shifts by 60 m; with 2 kt per 1,000 ft of shear the wind adds
 * 122 m in ten minutes.
 *
 * @param stepMetres height above the first ship
 * @param ageSeconds from writing to reading
 */
export function heightStepCost(
  stepMetres: number,
  shear: ShearVector,
  viewElevationRadians: number,
  ageSeconds: number,
  letterHeightMetres: number,
): HeightStepCost {
  if (!(letterHeightMetres > 0)) throw new RangeError(`letterHeightMetres must be positive: ${letterHeightMetres}`);
  const parallaxMetres = Math.abs(stepMetres) / Math.tan(viewElevationRadians);
  const shearMetres = Math.abs(stepMetres) * Math.hypot(shear.eastPerSecond, shear.northPerSecond) * ageSeconds;
  const shareOfHeight = (parallaxMetres + shearMetres) / letterHeightMetres;
  return { parallaxMetres, shearMetres, shareOfHeight, reads: shareOfHeight <= READABLE_SHARE_OF_HEIGHT };
}
