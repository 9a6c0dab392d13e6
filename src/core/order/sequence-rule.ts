import type { FreeProblem } from './free-problem.ts';
import type { SequenceRule } from './free-search.ts';

/** How long each letter stays unfinished in an order: its first smoke to its last, by letter. */
export function unfinishedSeconds(problem: FreeProblem, nodes: readonly number[]): number[] {
  const { graph, taskOf, letterOf, costSeconds, nodeCount, ownSeconds } = problem;
  const begun: number[] = [];
  const finished: number[] = [];
  let atSeconds = 0;
  nodes.forEach((node, place) => {
    const letter = letterOf[taskOf[node]!]!;
    // Penalties are no time.
    if (place > 0) atSeconds += costSeconds[nodes[place - 1]! * nodeCount + node]! - ownSeconds[node]!;
    begun[letter] ??= atSeconds;
    atSeconds += graph.smokeSeconds[node]!;
    finished[letter] = atSeconds;
  });
  return finished.map((seconds, letter) => seconds - begun[letter]!);
}

/** Letters are finished in the order of their rank, as far as they are among the tasks. */
export function finishesInOrder(problem: FreeProblem, tasks: readonly number[], rankOf: readonly number[]): boolean {
  const last = new Int32Array(rankOf.length).fill(-1);
  tasks.forEach((task, place) => (last[rankOf[problem.letterOf[task]!]!] = place));
  let latest = -1;
  for (const place of last) {
    if (place < 0) continue;
    if (place < latest) return false;
    latest = place;
  }
  return true;
}

/** Letters whose strokes follow each other without another's between. */
function lettersInOneGo(problem: FreeProblem, tasks: readonly number[]): Set<number> {
  const inOneGo = new Set<number>();
  const broken = new Set<number>();
  tasks.forEach((task, place) => {
    const letter = problem.letterOf[task]!;
    const before = place > 0 ? problem.letterOf[tasks[place - 1]!]! : -1;
    if (inOneGo.has(letter) && before !== letter) broken.add(letter);
    inOneGo.add(letter);
  });
  for (const letter of broken) inOneGo.delete(letter);
  return inOneGo;
}

/**
 * The rule for free orders: letters finished in an order of ranks, or in any; none unfinished longer than
 * `longestUnfinishedSeconds`, except letters written in one go, which cannot be had sooner.
 */
export function sequenceRule(problem: FreeProblem, rankOf: readonly number[] | null, longestUnfinishedSeconds: number): SequenceRule {
  const allows: SequenceRule['allows'] = (tasks, nodes) => {
    if (rankOf !== null && !finishesInOrder(problem, tasks, rankOf)) return false;
    if (longestUnfinishedSeconds === Infinity) return true;
    const inOneGo = lettersInOneGo(problem, tasks);
    return unfinishedSeconds(problem, nodes()).every((seconds, letter) => seconds <= longestUnfinishedSeconds || inOneGo.has(letter));
  };
  return { rankOf, allows };
}

/** The rule for letter after letter: each written in one go, in the order of its rank. */
export function letterByLetterRule(problem: FreeProblem, rankOf: readonly number[]): SequenceRule {
  const allows: SequenceRule['allows'] = (tasks) =>
    tasks.every((task, place) => place === 0 || rankOf[problem.letterOf[task]!]! >= rankOf[problem.letterOf[tasks[place - 1]!]!]!);
  return { rankOf, allows };
}
