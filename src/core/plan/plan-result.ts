import type { SmallestHeight } from './flyable.ts';
import type { Plan } from './plan.ts';

/** Why there is no plan, in terms a person can act on. */
export type PlanProblem =
  | { readonly kind: 'nothing-to-write' }
  | { readonly kind: 'too-small'; readonly smallest: SmallestHeight }
  | { readonly kind: 'no-heading-allowed' };

export type PlanResult = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly problem: PlanProblem };

/** How far the planner is; `fraction` runs from 0 to 1. */
export interface PlanProgress {
  readonly fraction: number;
}
