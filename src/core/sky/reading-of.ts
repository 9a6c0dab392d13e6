import type { JobAir } from '../job/job-air.ts';
import type { JobPlan } from '../plan/plan-job.ts';
import { type ReadingConditions, type ReadingWindow, readingWindow } from './reading-window.ts';
import { calibratedSmoke, type SmokeCalibration } from './smoke-calibration.ts';
import type { SmokeRange } from './smoke-range.ts';
import { type Trail, trailsFromPlan } from './trail.ts';

/** What becomes of a plan in the sky: its smoke, and how long it reads. */
export interface Reading {
  /** What is believed of the smoke: as published, or as a debrief measured it. */
  readonly smoke: SmokeRange;
  readonly trails: readonly Trail[];
  readonly window: ReadingWindow;
  /** When the last of it is likely no longer seen, since the first smoke. */
  readonly goneSeconds: number;
}

const TRAIL_STEP_METRES = 60;

/**
 * How long a planned job reads, by the job's own winds, shear and visibility (without one the air takes no contrast) and
 * by the smoke as measured, null for the published values. Every screen and sheet asks here, so all say the same.
 */
export function readingOf({ plan, air }: Pick<JobPlan, 'plan' | 'air'>, measured: SmokeCalibration | null): Reading {
  const trails = trailsFromPlan(plan, TRAIL_STEP_METRES);
  const smoke = calibratedSmoke(measured);
  const window = readingOfTrails(trails, { letterHeightMetres: plan.letterHeightMetres, facingRadians: plan.frame.facingRadians }, air, smoke);
  return { smoke, trails, window, goneSeconds: Math.max(plan.durationSeconds, ...window.letters.map(({ gone }) => gone.likelySeconds)) };
}

/** The same of any smoke over a job's site, such as what was really laid; the air with the wind that was found. */
export function readingOfTrails(
  trails: readonly Trail[],
  { letterHeightMetres, facingRadians }: Pick<ReadingConditions, 'letterHeightMetres' | 'facingRadians'>,
  { wind, shear, layerAboveSiteMetres, visibilityMetres }: Pick<JobAir, 'wind' | 'shear' | 'layerAboveSiteMetres' | 'visibilityMetres'>,
  smoke: SmokeRange,
): ReadingWindow {
  return readingWindow(trails, { letterHeightMetres, wind, shear, layerAboveSiteMetres, visibilityMetres, smoke, facingRadians });
}
