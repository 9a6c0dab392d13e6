import { jobText } from '../job/job-text.ts';
import { windFromVector } from '../earth/wind-vector.ts';
import type { Job } from '../job/job.ts';
import type { Artwork } from './artwork.ts';
import { kilogramsFromPounds } from '../units/quantity.ts';
import { commonLimits } from '../job/common-limits.ts';
import { lettersOfStrokes } from '../letters/drawn-letter.ts';
import { jobAir } from '../job/job-air.ts';
import { movedPlan } from '../plan/moved-plan.ts';
import { placeTextMiddle } from '../plan/place.ts';
import type { Plan } from '../plan/plan.ts';
import { planText } from '../plan/plan-text.ts';

/** Work for the proof of a drawing, in labels: a drawing of many strokes is shown soon rather than proven. */
const PROOF_LABELS = 20_000;

/**
 * How the job's lead writes a drawing instead of the job's text: its strokes in any order from either end, placed as
 * the text would be. Null when nothing in it can be flown, or the job has no ship.
 *
 * @param artwork as {@link artworkFromPathData} gives it for the lead's writing radius
 */
export function planArtwork(job: Job, artwork: Artwork): Plan | null {
  const [lead] = job.ships;
  if (lead === undefined || artwork.strokes.length === 0) return null;
  const air = jobAir(job);
  const { facingRadians, viewElevationRadians } = jobText(job);
  const result = planText(lettersOfStrokes(artwork.strokes), {
    ...commonLimits([lead], job.options),
    text: '',
    frame: { facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } },
    letterHeightMetres: artwork.depthMetres,
    textWidthMetres: artwork.widthMetres,
    letterOrder: 'free',
    progress: 'free',
    windFromRadians: air.directionKnown ? windFromVector(air.wind).fromRadians : null,
    oilKilogramsPerSecond: kilogramsFromPounds(lead.smokeOilPoundsPerMinute) / 60,
    proofLabels: PROOF_LABELS,
  });
  if (!result.ok) return null;
  const wish = { facingRadians, viewElevationRadians, layerAboveSiteMetres: air.layerAboveSiteMetres };
  return movedPlan(result.plan, placeTextMiddle(wish, air.wind, result.plan.durationSeconds));
}
