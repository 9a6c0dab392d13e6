import type { Job, JobDrawing } from '../job/job.ts';
import { type DrawingToPlace, withDrawings } from '../letters/placed-drawings.ts';
import { typeset, type Typesetting } from '../letters/typeset.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { metresFromFeet } from '../units/quantity.ts';

/** Between words and a drawing, in letter heights: as between two words. */
const GAP_HEIGHTS = 0.95;

/**
 * What a job writes, laid out in the letter frame: its words in its hand, and its drawings beside them.
 *
 * @param writingRadiusMetres the radius its ships write with
 */
export function jobLayout(
  { text, letters, options, drawings }: Pick<Job, 'text' | 'letters' | 'options' | 'drawings'>,
  writingRadiusMetres: number,
): Typesetting {
  const heightMetres = metresFromFeet(letters.heightFeet);
  const wordless = text.trim() === '' && drawings.length > 0;
  const setting = typeset(text, {
    heightMetres,
    spacingHeights: letters.spacingHeights,
    depthStretch: letters.depthStretch,
    hand: options.hand,
    turnRadiusMetres: writingRadiusMetres,
  });
  if (drawings.length === 0 || (!setting.ok && !wordless)) return setting;
  return { ok: true, layout: withDrawings(setting.ok ? setting.layout : null, drawings.map(drawingToPlace), GAP_HEIGHTS * heightMetres) };
}

function drawingToPlace({ place, depthFeet, strokes }: JobDrawing): DrawingToPlace {
  const depthMetres = metresFromFeet(depthFeet);
  return {
    place,
    strokes: strokes.map(({ xDepths, yDepths, directionDegrees, closed, segments }) => ({
      closed,
      path: {
        start: { xMetres: xDepths * depthMetres, yMetres: yDepths * depthMetres, directionRadians: radiansFromDegrees(directionDegrees) },
        segments: segments.map(({ lengthDepths, curvaturePerDepth }) => ({
          lengthMetres: lengthDepths * depthMetres,
          curvaturePerMetre: curvaturePerDepth / depthMetres,
        })),
      },
    })),
  };
}
