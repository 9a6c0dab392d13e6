import { contrastThroughAir, levelRangeMetres } from './plume.ts';
import { READING_LIMITS, type ReadingLimits } from './reading-window.ts';

/** From how far around the point below the text it still reads, and what ends it. */
export interface ReadableRadius {
  /** Over the ground; 0 when it reads from nowhere. */
  readonly radiusMetres: number;
  readonly endedBy: 'too far' | 'faint';
}

/**
 * The radius on the ground, around the point straight below a text, within which its letters show at least 20 minutes
 * of arc deep, `H sin^2(e) / h`, and the air between leaves enough contrast. Whoever stands beside the facing sees it
 * turned (see `shownTurnRadians`); this is how far, not from where it stands upright.
 *
 * Worked: letters a statute mile high at 10,000 ft in clear air: 28.9 km, 18 miles (a reference work has 15 to 20).
 *
 * @param contrast of the strokes from near by, 0 to 1
 * @param visibilityMetres null for air that takes nothing
 */
export function readableRadius(
  letterHeightMetres: number,
  aboveGroundMetres: number,
  contrast: number,
  visibilityMetres: number | null,
  limits: ReadingLimits = READING_LIMITS,
): ReadableRadius {
  if (!(letterHeightMetres > 0 && aboveGroundMetres > 0)) {
    throw new RangeError(`letters ${letterHeightMetres} m high at ${aboveGroundMetres} m: both must be above 0`);
  }
  const sineSquare = (limits.shownDepthRadians * aboveGroundMetres) / letterHeightMetres;
  const bySize = sineSquare >= 1 ? 0 : aboveGroundMetres * Math.sqrt(1 / sineSquare - 1);
  if (contrast < limits.contrast) return { radiusMetres: 0, endedBy: 'faint' };
  if (visibilityMetres === null) return { radiusMetres: bySize, endedBy: 'too far' };
  // The slant range at which Koschmieder's law has brought the contrast down to the limit.
  const perMetre = -Math.log(contrastThroughAir(1, levelRangeMetres(1, aboveGroundMetres), visibilityMetres));
  const slantMetres = Math.log(contrast / limits.contrast) / perMetre;
  const byHaze = slantMetres <= aboveGroundMetres ? 0 : Math.sqrt(slantMetres ** 2 - aboveGroundMetres ** 2);
  return byHaze < bySize ? { radiusMetres: byHaze, endedBy: 'faint' } : { radiusMetres: bySize, endedBy: 'too far' };
}
