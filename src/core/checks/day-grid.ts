import { jobText } from '../job/job-text.ts';
import { sunDay } from '../earth/sun.ts';
import { crowdEyes, eyeFromMiddle } from '../job/crowd-place.ts';
import type { Job } from '../job/job.ts';
import { type FacingCell, facingGrid, type FacingRequest, strokeDirections } from '../place/facing-choice.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import type { PlannedJob } from '../plan/planned-job.ts';
import type { Reading } from '../sky/reading-of.ts';

/** The hours and facings of a day's picture. */
export interface DayAxes {
  readonly readTimesMilliseconds: readonly number[];
  readonly facingsDegrees: readonly number[];
}

const HOUR_MILLISECONDS = 3_600_000;
const FACING_STEP_DEGREES = 15;
/** A polar day has no edges and a polar night no light; both are shown around noon. */
const HALF_POLAR_DAY_HOURS = 12;

/**
 * The day around a job's read time, from first light to last in equal steps of whole clock times, and every 15 degrees
 * of facing.
 */
export function dayAxes({ site, readTime }: Job, stepMinutes: number): DayAxes {
  const { dawnMilliseconds, duskMilliseconds, noonMilliseconds } = sunDay(site, Date.parse(readTime));
  const from = dawnMilliseconds ?? noonMilliseconds - HALF_POLAR_DAY_HOURS * HOUR_MILLISECONDS;
  const to = duskMilliseconds ?? noonMilliseconds + HALF_POLAR_DAY_HOURS * HOUR_MILLISECONDS;
  const step = stepMinutes * 60_000;
  const first = Math.ceil(from / step) * step;
  const count = Math.max(1, Math.floor((to - first) / step) + 1);
  return {
    readTimesMilliseconds: Array.from({ length: count }, (_, index) => first + index * step),
    facingsDegrees: Array.from({ length: 360 / FACING_STEP_DEGREES }, (_, index) => index * FACING_STEP_DEGREES),
  };
}

/** What a day's picture is asked of the planned text: all but hours and facings. */
export function dayRequest({ plan, job, air, readSeconds }: PlannedJob, { window }: Reading): Omit<FacingRequest, 'facingsRadians' | 'readTimesMilliseconds'> {
  return {
    site: air.site,
    textWidthMetres: plan.textWidthMetres,
    letterHeightMetres: plan.letterHeightMetres,
    layerAboveSiteMetres: air.layerAboveSiteMetres,
    viewElevationRadians: jobText(job).viewElevationRadians,
    wind: air.wind,
    writingSeconds: readSeconds,
    readingSeconds: Math.max(0, window.until.likelySeconds - readSeconds),
    strokes: strokeDirections(plan),
    mayTurnStrokes: false,
    eyes: crowdEyes(job).map((eye) => eyeFromMiddle(eye, air.site)),
    crowdFacingRadians: typeof job.site.crowdFacingDegreesTrue === 'number' ? radiansFromDegrees(job.site.crowdFacingDegreesTrue) : null,
  };
}

/** The cells of one facing over the whole day; a few milliseconds, so that a page can go through the facings one by one. */
export function dayRow(request: ReturnType<typeof dayRequest>, facingDegrees: number, readTimesMilliseconds: readonly number[]): FacingCell[] {
  return facingGrid({ ...request, facingsRadians: [radiansFromDegrees(facingDegrees)], readTimesMilliseconds });
}
