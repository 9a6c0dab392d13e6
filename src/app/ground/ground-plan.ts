import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { Reading } from '../../core/sky/reading-of.ts';

/** A job's plan with what becomes of its smoke. */
export type GroundPlan = PlannedJob & Pick<Reading, 'trails' | 'window'>;
