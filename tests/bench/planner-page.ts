import { planText } from '../../src/core/plan/plan-text.ts';
import { drawnText, optionsFor } from '../core/order/drawn-text.ts';

/** What the page of the throttled bench offers: seconds of planning a text at its freest, setting it included. */
export interface PlannerPage {
  planSeconds(text: string): number;
}

(globalThis as unknown as { plannerPage: PlannerPage }).plannerPage = {
  planSeconds(text) {
    const startedAt = performance.now();
    const result = planText(drawnText(text).letters, optionsFor(text, { letterOrder: 'free', progress: 'free' }));
    if (!result.ok) throw new Error(`${text}: ${result.problem.kind}`);
    return (performance.now() - startedAt) / 1000;
  },
};
