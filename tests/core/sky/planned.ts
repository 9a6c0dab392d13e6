import type { Plan } from '../../../src/core/planning/plan.ts';
import { type PlanOptions, planText } from '../../../src/core/planning/plan-text.ts';
import { drawnText, optionsFor } from '../planning/drawn-text.ts';

/** A plan of the targets' ship, for pictures and windows to look at. */
export function plannedText(text: string, changes: Partial<PlanOptions> = {}): Plan {
  const heightMetres = changes.letterHeightMetres ?? 1200;
  const { letters, widthMetres } = drawnText(text, heightMetres);
  const found = planText(letters, { ...optionsFor(text, changes), textWidthMetres: widthMetres });
  if (!found.ok) throw new Error(`no plan: ${found.problem.kind}`);
  return found.plan;
}
