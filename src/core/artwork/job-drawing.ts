import type { JobDrawing } from '../job/job.ts';
import { DRAWING_LENGTHS } from '../job/drawing-lengths.ts';
import { degreesFromRadians } from '../units/angle.ts';
import { feetFromMetres } from '../units/quantity.ts';
import type { Artwork } from './artwork.ts';

/**
 * A drawing's strokes as a job keeps them, in depths of the drawing, or why a job cannot hold them.
 *
 * @param name what the drawing is called
 */
export function jobDrawing(artwork: Artwork, name: string, place: JobDrawing['place']): JobDrawing | { readonly reason: string } {
  const { strokes, depthMetres } = artwork;
  if (strokes.length === 0) return { reason: 'Nothing of it can be flown at this size.' };
  if (strokes.length > DRAWING_LENGTHS.strokes || strokes.some(({ path }) => path.segments.length > DRAWING_LENGTHS.segments))
    return { reason: `It has ${strokes.length} strokes; a job takes a drawing of up to ${DRAWING_LENGTHS.strokes}. Leave lines out.` };
  return {
    name,
    place,
    depthFeet: feetFromMetres(depthMetres),
    strokes: strokes.map(({ path: { start, segments }, closed }) => ({
      xDepths: start.xMetres / depthMetres,
      yDepths: start.yMetres / depthMetres,
      directionDegrees: degreesFromRadians(start.directionRadians),
      closed,
      segments: segments.map(({ lengthMetres, curvaturePerMetre }) => ({
        lengthDepths: lengthMetres / depthMetres,
        curvaturePerDepth: curvaturePerMetre * depthMetres,
      })),
    })),
  };
}
