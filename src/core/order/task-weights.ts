import type { FreeProblem } from './free-problem.ts';

/** What each task weighs in a relaxed route, and the weights that a route can have when it visits the task. */
export interface TaskWeights {
  /** Of each letter, whatever its alternative. */
  readonly letterWeight: number;
  /** Of the whole text. */
  readonly totalWeight: number;
  readonly weightOf: Int32Array;
  /** The weight a route has, with a task, when it visits that task: at least and at most. */
  readonly earliestOf: Int32Array;
  readonly latestOf: Int32Array;
}

/**
 * A letter weighs as much as its most strokes among some nodes; strokes of fewer share that out in whole numbers.
 *
 * @param rankOf the order in which letters must be finished, as a rank from 0 for each letter; null for any order
 */
export function taskWeights(problem: FreeProblem, nodes: Int32Array, rankOf: readonly number[] | null): TaskWeights {
  let letterWeight = 1;
  for (const node of nodes) letterWeight = Math.max(letterWeight, strokesOf(problem, problem.taskOf[node]!));
  const totalWeight = letterWeight * problem.tasksOf.length;
  const weightOf = new Int32Array(problem.letterOf.length);
  for (const alternatives of problem.tasksOf) {
    for (const tasks of alternatives) {
      const share = Math.floor(letterWeight / tasks.length);
      const rest = letterWeight - share * tasks.length;
      tasks.forEach((task, index) => (weightOf[task] = share + (index < rest ? 1 : 0)));
    }
  }
  const weights = { letterWeight, totalWeight, weightOf, earliestOf: weightOf.slice(), latestOf: new Int32Array(weightOf.length).fill(totalWeight) };
  if (rankOf !== null) narrow(problem, nodes, rankOf, weights);
  return weights;
}

/** Strokes of the alternative that a task belongs to. */
export function strokesOf(problem: FreeProblem, task: number): number {
  return problem.tasksOf[problem.letterOf[task]!]![problem.alternativeOf[task]!]!.length;
}

/**
 * Letters finished in an order bound the weight of a visit. A letter of one stroke is finished by it, so all that
 * rank before are; a letter that is not finished yet leaves those that rank after it unfinished too, each short of
 * at least one stroke.
 */
function narrow(
  problem: FreeProblem,
  nodes: Int32Array,
  rankOf: readonly number[],
  { letterWeight, totalWeight, weightOf, earliestOf, latestOf }: TaskWeights,
): void {
  const unfinished = new Float64Array(rankOf.length);
  for (const node of nodes) {
    const task = problem.taskOf[node]!;
    const rank = rankOf[problem.letterOf[task]!]!;
    unfinished[rank] = Math.max(unfinished[rank]!, letterWeight - weightOf[task]!);
  }
  for (let task = 0; task < weightOf.length; task += 1) {
    const rank = rankOf[problem.letterOf[task]!]!;
    if (strokesOf(problem, task) === 1) earliestOf[task] = (rank + 1) * letterWeight;
    const after = unfinished.subarray(rank + 1).reduce((sum, weight) => sum + weight, 0);
    latestOf[task] = Math.min(totalWeight, (rank + 1) * letterWeight + after);
  }
}
