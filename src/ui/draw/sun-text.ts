import type { SkyDirection } from '../../core/earth/sun.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { formatBearing, formatNumber } from '../../core/text/number-formats.ts';

/** Common practice, no source: nearer to the sun than this, smoke is lost in the glare. */
const GLARE_DEGREES = 25;

/** Where the sun stands and whether it spoils the view, in a sentence or two. */
export function sunText(sun: SkyDirection, nearestLetterRadians: number): string {
  if (sun.elevationRadians < 0) return `The sun is ${formatNumber(-degreesFromRadians(sun.elevationRadians))}\u00b0 under the horizon: smoke is not lit.`;
  const place = `The sun stands ${formatNumber(degreesFromRadians(sun.elevationRadians))}\u00b0 high at ${formatBearing(degreesFromRadians(sun.azimuthRadians))}\u00b0 true`;
  const apart = degreesFromRadians(nearestLetterRadians);
  const margin = `${formatNumber(apart)}\u00b0 from the nearest letter`;
  return apart < GLARE_DEGREES ? `${place}, only ${margin}: people look into the glare. Face another way or choose another hour.` : `${place}, ${margin}.`;
}
