import { dubinsLengthMetres } from '../../src/core/paths/dubins-length.ts';
import { shortestDubins } from '../../src/core/paths/dubins.ts';
import type { DrawnLetter } from '../../src/core/letters/drawn-letter.ts';
import type { Hand } from '../../src/core/letters/hand.ts';
import { type Plan, planGap } from '../../src/core/plan/plan.ts';
import { planPlainly, planText, type PlanOptions } from '../../src/core/plan/plan-text.ts';
import type { PlanResult } from '../../src/core/plan/plan-result.ts';
import { drawnText, optionsFor } from '../core/order/drawn-text.ts';
import reference from '../reference/dubins.json' with { type: 'json' };
import { textbookDubinsMetres } from './textbook-dubins.ts';

const LETTER_METRES = 1200;

/** The planner at its freest: any order of letters and strokes, from either end. */
export const FREEST: Partial<PlanOptions> = { letterOrder: 'free', progress: 'free' };

/** What planning one text gave. */
export interface Measured {
  readonly text: string;
  readonly plan: Plan;
  readonly wallSeconds: number;
  /** Over plain letter order, crisp corners, fixed directions. */
  readonly shareOfPlain: number;
  readonly plain: Plan;
  readonly gap: number;
}

function must(text: string, result: PlanResult): Plan {
  if (!result.ok) throw new Error(`${text}: ${JSON.stringify(result.problem)}`);
  return result.plan;
}

function planned(text: string, letters: readonly DrawnLetter[], changes: Partial<PlanOptions>): Plan {
  return must(text, planText(letters, optionsFor(text, changes)));
}

/** Plans a text, timed, and compares it with the plain plan. */
export function measure(text: string, changes: Partial<PlanOptions> = FREEST, hand: Hand = 'round-capitals'): Measured {
  const { letters } = drawnText(text, LETTER_METRES, hand);
  const startedAt = performance.now();
  const plan = planned(text, letters, changes);
  const wallSeconds = (performance.now() - startedAt) / 1000;
  const plain = must(text, planPlainly(drawnText(text, LETTER_METRES, 'capitals').letters, optionsFor(text)));
  return { text, plan, wallSeconds, plain, shareOfPlain: plan.durationSeconds / plain.durationSeconds, gap: planGap(plan) };
}

/** How far the plan of `measure` is from the best there is, by a proof that takes its time; a fraction. */
export function provenGap(measured: Measured, proofLabels: number): number {
  const proven = planned(measured.text, drawnText(measured.text, LETTER_METRES, 'round-capitals').letters, { ...FREEST, proofLabels });
  return Math.max(0, measured.plan.durationSeconds / proven.lowerBoundSeconds - 1);
}

export function median(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((one, other) => one - other);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** The worst error over the reference, and seconds for a length: ours without objects, ours with its path, textbook. */
export function measureDubins(): { worstMetres: number; count: number; lengthSeconds: number; pathSeconds: number; textbookSeconds: number } {
  const cases = reference.cases.map((row) => ({
    row,
    from: { airEastMetres: row.x0, airNorthMetres: row.y0, directionRadians: row.theta0 },
    to: { airEastMetres: row.x1, airNorthMetres: row.y1, directionRadians: row.theta1 },
    sines: [Math.sin(row.theta0), Math.cos(row.theta0), Math.sin(row.theta1), Math.cos(row.theta1)] as const,
  }));
  const lengthOf = ({ row, sines }: (typeof cases)[0]): number =>
    dubinsLengthMetres(row.x1 - row.x0, row.y1 - row.y0, row.theta0, sines[0], sines[1], row.theta1, sines[2], sines[3], row.rho, 0);
  let worstMetres = 0;
  for (const entry of cases) {
    const path = shortestDubins(entry.from, entry.to, entry.row.rho);
    worstMetres = Math.max(worstMetres, Math.abs(path.lengthMetres - entry.row.ompl_length), Math.abs(lengthOf(entry) - entry.row.ompl_length));
  }
  const timed = (run: (entry: (typeof cases)[0]) => number): number => {
    const times: number[] = [];
    let sum = 0;
    for (let round = 0; round < 15; round += 1) {
      const startedAt = performance.now();
      for (let repeat = 0; repeat < 100; repeat += 1) for (const entry of cases) sum += run(entry);
      times.push((performance.now() - startedAt) / 1000 / (100 * cases.length));
    }
    if (!Number.isFinite(sum)) throw new Error('a length was not finite');
    return median(times.slice(5));
  };
  return {
    worstMetres,
    count: cases.length,
    lengthSeconds: timed(lengthOf),
    pathSeconds: timed(({ from, to, row }) => shortestDubins(from, to, row.rho).lengthMetres),
    textbookSeconds: timed(({ from, to, row }) => textbookDubinsMetres(from, to, row.rho)),
  };
}
