import { typeset } from '../../../src/core/letters/typeset.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { type PlanOptions, planText } from '../../../src/core/plan/plan-text.ts';
import { turnRadiusMetres } from '../../../src/core/paths/turn.ts';
import { TARGET_OPTIONS } from '../order/drawn-text.ts';

/** A plan of the targets' ship, set as the app sets type, for pictures and windows to look at. */
export function plannedText(text: string, changes: Partial<PlanOptions> = {}): Plan {
  const options = { ...TARGET_OPTIONS, ...changes };
  const set = typeset(text, {
    heightMetres: options.letterHeightMetres,
    turnRadiusMetres: turnRadiusMetres(options.trueAirspeedMetresPerSecond, options.writingBankRadians),
  });
  if (!set.ok) throw new Error(set.reason);
  const found = planText(set.layout.letters, { ...options, text, textWidthMetres: set.layout.widthMetres });
  if (!found.ok) throw new Error(`no plan: ${found.problem.kind}`);
  return found.plan;
}
