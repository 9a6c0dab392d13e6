import { proveBound } from './free-bound.ts';
import { freeProblem } from './free-problem.ts';
import { searchFreely } from './free-search.ts';
import type { StrokeOrder } from './letter-order.ts';
import { sequenceRule } from './sequence-rule.ts';
import { leastSmokeSeconds, type StrokeGraph } from './stroke-graph.ts';

export interface FreeOrderOptions {
  /** Orders to start from, letter by letter. */
  readonly starts: readonly StrokeOrder[];
  /** The one sequence in which letters must be finished; null for any. */
  readonly sequence: readonly number[] | null;
  readonly longestUnfinishedSeconds: number;
  readonly seed: number;
  /** Work to spend on the proof, in labels; see `proveBound`. */
  readonly proofLabels: number;
}

export interface ProvenOrder extends StrokeOrder {
  /** No allowed order costs less. */
  readonly lowerBoundSeconds: number;
}

/** Steps times letters: what the search spends at most. */
const MOST_SEARCH_WORK = 60_000;
/** Arcs times letters: what one pass of the proof looks at, for each unit of a letter's weight. */
const MOST_PROOF_WORK = 3e7;

/**
 * The best order of all strokes that can be found, and how good it is. Searches from every start, then proves;
 * never worse than the best start. Yields its progress as a fraction.
 */
export function* orderFreely(graph: StrokeGraph, options: FreeOrderOptions): Generator<number, ProvenOrder> {
  const { starts, sequence } = options;
  const problem = freeProblem(graph);
  yield 0.1;
  const rankOf = sequence === null ? null : sequence.map((_, letter) => sequence.indexOf(letter));
  const rule = sequenceRule(problem, rankOf, options.longestUnfinishedSeconds);
  let best: StrokeOrder = starts.reduce((least, start) => (start.costSeconds < least.costSeconds ? start : least));
  const letters = graph.letters.length;
  const steps = Math.min(400 + 60 * letters, Math.ceil(MOST_SEARCH_WORK / letters));
  for (const [index, start] of starts.entries()) {
    const tasks = start.nodes.map((node) => problem.taskOf[node]!);
    const search = searchFreely(problem, tasks, rule, steps, options.seed + index);
    for (let step = search.next(); ; step = search.next()) {
      if (step.done) {
        if (step.value.costSeconds < best.costSeconds - 1e-9) best = step.value;
        break;
      }
      yield 0.1 + (0.4 * (index + step.value)) / starts.length;
    }
  }
  // Drawings of very many strokes would take the proof minutes.
  if (problem.nodeCount ** 2 * letters > MOST_PROOF_WORK) return { ...best, lowerBoundSeconds: leastSmokeSeconds(graph) };
  const proof = proveBound(problem, best.costSeconds, rankOf, options.proofLabels);
  for (let step = proof.next(); ; step = proof.next()) {
    if (!step.done) {
      yield 0.5 + 0.5 * step.value;
      continue;
    }
    const { lowerBoundSeconds, order } = step.value;
    const tasks = order?.map((node) => problem.taskOf[node]!) ?? [];
    if (order !== null && rule.allows(tasks, () => order)) best = { nodes: order, costSeconds: lowerBoundSeconds };
    return { ...best, lowerBoundSeconds };
  }
}
