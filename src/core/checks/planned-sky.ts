import { type ReadingWindow, readingWindow } from '../sky/reading-window.ts';
import type { SmokeRange } from '../sky/smoke-range.ts';
import { type Trail, trailsFromPlan } from '../sky/trail.ts';
import type { PlannedJob } from '../plan/planned-job.ts';

/** What becomes of a plan in the sky: its smoke, and how long it reads. */
export interface PlannedSky {
  readonly visibilityMetres: number | null;
  /** What is believed of the smoke: as published, or as a debrief measured it. */
  readonly smoke: SmokeRange;
  readonly trails: readonly Trail[];
  readonly window: ReadingWindow;
  /** When the last of it is likely no longer seen, since the first smoke. */
  readonly goneSeconds: number;
}

const TRAIL_STEP_METRES = 60;

/** The sky of a plan by the job's own winds; without a visibility the air takes no contrast. */
export function plannedSky({ plan, air }: PlannedJob, visibilityMetres: number | null, smoke: SmokeRange): PlannedSky {
  const trails = trailsFromPlan(plan, TRAIL_STEP_METRES);
  const window = readingWindow(trails, {
    letterHeightMetres: plan.letterHeightMetres,
    wind: air.wind,
    shear: air.shear,
    layerAboveSiteMetres: air.layerAboveSiteMetres,
    visibilityMetres,
    smoke,
  });
  return { visibilityMetres, smoke, trails, window, goneSeconds: Math.max(plan.durationSeconds, ...window.letters.map(({ gone }) => gone.likelySeconds)) };
}
