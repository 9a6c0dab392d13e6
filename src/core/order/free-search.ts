import type { FreeProblem } from './free-problem.ts';
import { type SeededRandom, seededRandom } from './seeded-random.ts';
import { TaskChain } from './task-chain.ts';

/** Which sequences of tasks the options allow. */
export interface SequenceRule {
  /** Letters must be finished in this order; null for any. */
  readonly rankOf: readonly number[] | null;
  /** The whole rule, the order of finishing included. */
  readonly allows: (tasks: readonly number[], nodes: () => readonly number[]) => boolean;
}

export interface FreeSolution {
  readonly tasks: readonly number[];
  readonly nodes: readonly number[];
  readonly costSeconds: number;
}

/**
 * The places where a letter's stroke may stand for the letter to be finished in turn: before the end of all that
 * rank after, and, when it is the letter's last to be inserted and none stands there yet, after the end of all that
 * rank before.
 */
function placesInTurn(problem: FreeProblem, tasks: readonly number[], letter: number, isLast: boolean, rankOf: readonly number[]): [number, number] {
  const rank = rankOf[letter]!;
  const lastPlaces = new Int32Array(rankOf.length).fill(-1);
  tasks.forEach((task, place) => (lastPlaces[rankOf[problem.letterOf[task]!]!] = place));
  const before = lastPlaces.subarray(0, rank).reduce((latest, place) => Math.max(latest, place), -1);
  const after = lastPlaces.subarray(rank + 1).reduce((first, place) => (place >= 0 ? Math.min(first, place) : first), tasks.length);
  return [isLast && lastPlaces[rank]! <= before ? before + 1 : 0, after];
}

/** One in so many places and alternatives is overlooked, or the same repairs would be made for ever. */
const BLINK = 12;

/** Inserts a task where it costs least of the places from `first` to `last`, with a blink. */
function insertCheapest(chain: TaskChain, task: number, first: number, last: number, random: SeededRandom): void {
  let bestPlace = first;
  let best = Infinity;
  for (let place = first; place <= last; place += 1) {
    if (random.below(BLINK) === 0) continue;
    const seconds = chain.costWithInserted(task, place);
    if (seconds < best) {
      best = seconds;
      bestPlace = place;
    }
  }
  chain.set([...chain.tasks.slice(0, bestPlace), task, ...chain.tasks.slice(bestPlace)]);
}

function shuffled<Item>(items: readonly Item[], random: SeededRandom): Item[] {
  const mixed = [...items];
  for (let index = mixed.length - 1; index > 0; index -= 1) {
    const other = random.below(index + 1);
    [mixed[index], mixed[other]] = [mixed[other]!, mixed[index]!];
  }
  return mixed;
}

/** Writes a letter again in its cheapest alternative, its strokes inserted one by one in a random order. */
function insertLetter(problem: FreeProblem, chain: TaskChain, letter: number, rankOf: readonly number[] | null, random: SeededRandom): void {
  const without = chain.tasks;
  let best: number[] = [];
  let bestSeconds = Infinity;
  for (const tasks of problem.tasksOf[letter]!) {
    chain.set(without);
    shuffled(tasks, random).forEach((task, index) => {
      const isLast = index === tasks.length - 1;
      const [first, last] = rankOf === null ? [0, chain.tasks.length] : placesInTurn(problem, chain.tasks, letter, isLast, rankOf);
      insertCheapest(chain, task, first, last, random);
    });
    const seconds = chain.costSeconds();
    if (seconds < bestSeconds && (best.length === 0 || random.below(BLINK) > 0)) {
      bestSeconds = seconds;
      best = chain.tasks;
    }
  }
  chain.set(best);
}

/** Takes a few letters out that are written near each other and writes them again. */
function rewriteLetters(problem: FreeProblem, chain: TaskChain, rankOf: readonly number[] | null, random: SeededRandom): void {
  const { tasks } = chain;
  const around = random.below(tasks.length);
  const count = 1 + random.below(4);
  const letters = new Set<number>();
  for (let step = 0; step < tasks.length && letters.size < count; step += 1) {
    const place = around + (step % 2 === 0 ? step / 2 : -(step + 1) / 2);
    const task = tasks[place];
    if (task !== undefined) letters.add(problem.letterOf[task]!);
  }
  chain.set(tasks.filter((task) => !letters.has(problem.letterOf[task]!)));
  for (const letter of shuffled([...letters], random)) insertLetter(problem, chain, letter, rankOf, random);
}

/** Moves a run of tasks elsewhere, or turns it round in place, or both. */
function moveRun(chain: TaskChain, random: SeededRandom): void {
  const { tasks } = chain;
  const first = random.below(tasks.length);
  const length = 1 + random.below(Math.min(6, tasks.length - first));
  const run = tasks.slice(first, first + length);
  const rest = [...tasks.slice(0, first), ...tasks.slice(first + length)];
  const kind = random.below(3);
  const place = kind === 0 ? first : random.below(rest.length + 1);
  chain.set([...rest.slice(0, place), ...(kind === 1 ? run : run.reverse()), ...rest.slice(place)]);
}

/**
 * Shakes an order for the better (ruin and recreate, Schrimpf et al. 2000; blinks, Christiaens and
 * Vanden Berghe 2020; falling threshold, Dueck 1993):
 * letters are taken out and written again, runs of strokes moved and turned. Yields after each hundred steps;
 * returns the best order seen. The same seed gives the same answer, on any machine.
 */
export function* searchFreely(
  problem: FreeProblem,
  start: readonly number[],
  rule: SequenceRule,
  steps: number,
  seed: number,
): Generator<number, FreeSolution> {
  const random = seededRandom(seed);
  const chain = new TaskChain(problem);
  chain.set([...start]);
  let current = chain.tasks;
  let currentSeconds = chain.costSeconds();
  let best = current;
  let bestSeconds = currentSeconds;
  for (let step = 0; step < steps; step += 1) {
    if (step % 100 === 99) yield step / steps;
    chain.set(current);
    if (random.below(3) === 0) moveRun(chain, random);
    else rewriteLetters(problem, chain, rule.rankOf, random);
    const seconds = chain.costSeconds();
    const thresholdSeconds = 12 * (1 - step / steps) ** 2;
    if (seconds >= bestSeconds + thresholdSeconds && seconds >= currentSeconds) continue;
    if (!rule.allows(chain.tasks, () => chain.nodes())) continue;
    current = chain.tasks;
    currentSeconds = seconds;
    if (seconds < bestSeconds - 1e-9) {
      best = current;
      bestSeconds = seconds;
    }
  }
  chain.set(best);
  return { tasks: best, nodes: chain.nodes(), costSeconds: bestSeconds };
}
