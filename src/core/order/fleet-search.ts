import type { FreeProblem } from './free-problem.ts';
import type { SequenceRule } from './free-search.ts';
import { type SeededRandom, seededRandom } from './seeded-random.ts';
import { TaskChain } from './task-chain.ts';

/** A division of the strokes among ships: for each ship its tasks in flying order, and what they take. */
export interface FleetOrder {
  readonly tasks: readonly (readonly number[])[];
  readonly nodes: readonly (readonly number[])[];
  readonly costSeconds: readonly number[];
  readonly longestSeconds: number;
}

/** Of two divisions that end at the same time the one that flies less is better, by this share of what it flies. */
const SUM_SHARE = 0.02;
/** What it counts when a ship's part reaches a letter into the next ship's. */
const OVERLAP_SECONDS = 30;
const BLINK = 12;
/** Divisions this much longer than the best are kept, for one of them may keep the ships apart with less waiting. */
const KEPT_SECONDS = 25;
const KEPT_MOST = 80;

class Fleet {
  readonly problem: FreeProblem;
  readonly chains: readonly TaskChain[];
  readonly costs: Float64Array;

  constructor(problem: FreeProblem, ships: number) {
    this.problem = problem;
    this.chains = Array.from({ length: ships }, () => new TaskChain(problem));
    this.costs = new Float64Array(ships);
  }

  setShip(ship: number, tasks: number[]): void {
    this.chains[ship]!.set(tasks);
    this.costs[ship] = this.chains[ship]!.costSeconds();
  }

  set(tasks: readonly (readonly number[])[]): void {
    tasks.forEach((own, ship) => this.setShip(ship, [...own]));
  }

  tasks(): number[][] {
    return this.chains.map(({ tasks }) => tasks);
  }

  /** How far the ships' parts reach into each other, in letters beyond a shared one. */
  overlapLetters(): number {
    const spans = this.chains
      .filter(({ tasks }) => tasks.length > 0)
      .map(({ tasks }) => {
        const letters = tasks.map((task) => this.problem.letterOf[task]!);
        return { first: Math.min(...letters), last: Math.max(...letters) };
      })
      .sort((one, other) => one.first + one.last - other.first - other.last);
    let overlap = 0;
    spans.forEach((span, index) => {
      if (index > 0) overlap += Math.max(0, spans[index - 1]!.last - span.first);
    });
    return overlap;
  }

  score(): number {
    return this.scoreWith(0, this.costs[0]!) + OVERLAP_SECONDS * this.overlapLetters();
  }

  /** The score without overlap when one ship took so long. */
  scoreWith(ship: number, seconds: number): number {
    let longest = seconds;
    let sum = seconds;
    for (let other = 0; other < this.costs.length; other += 1) {
      if (other === ship) continue;
      longest = Math.max(longest, this.costs[other]!);
      sum += this.costs[other]!;
    }
    return longest + SUM_SHARE * sum;
  }

  /** Gives a task to the ship and place where it costs least, with a blink. */
  insert(task: number, random: SeededRandom): void {
    let best = Infinity;
    let bestShip = 0;
    let bestPlace = 0;
    this.chains.forEach((chain, ship) => {
      for (let place = 0; place <= chain.tasks.length; place += 1) {
        if (random.below(BLINK) === 0) continue;
        const score = this.scoreWith(ship, chain.costWithInserted(task, place));
        if (score < best) {
          best = score;
          bestShip = ship;
          bestPlace = place;
        }
      }
    });
    const { tasks } = this.chains[bestShip]!;
    this.setShip(bestShip, [...tasks.slice(0, bestPlace), task, ...tasks.slice(bestPlace)]);
  }
}

function shuffled<Item>(items: readonly Item[], random: SeededRandom): Item[] {
  return items
    .map((item) => ({ item, key: random.next() }))
    .sort((one, other) => one.key - other.key)
    .map(({ item }) => item);
}

/** Takes a few neighbouring letters, or single strokes, away from all ships and gives them out again. */
function shake(fleet: Fleet, random: SeededRandom): void {
  const { problem } = fleet;
  const all = fleet.tasks();
  if (random.below(3) === 0) {
    const written = all.flat();
    const strokes = new Set(Array.from({ length: 1 + random.below(3) }, () => written[random.below(written.length)]!));
    fleet.set(all.map((tasks) => tasks.filter((task) => !strokes.has(task))));
    for (const task of shuffled([...strokes], random)) fleet.insert(task, random);
    return;
  }
  const first = random.below(problem.tasksOf.length);
  const count = 1 + random.below(3);
  const letters = Array.from({ length: count }, (_, index) => first + index).filter((letter) => letter < problem.tasksOf.length);
  fleet.set(all.map((tasks) => tasks.filter((task) => !letters.includes(problem.letterOf[task]!))));
  for (const letter of shuffled(letters, random)) {
    const without = fleet.tasks();
    let best = without;
    let bestScore = Infinity;
    for (const tasks of problem.tasksOf[letter]!) {
      fleet.set(without);
      for (const task of shuffled(tasks, random)) fleet.insert(task, random);
      const score = fleet.score();
      if (score < bestScore && (bestScore === Infinity || random.below(BLINK) > 0)) {
        bestScore = score;
        best = fleet.tasks();
      }
    }
    fleet.set(best);
  }
}

function orderOf(fleet: Fleet): FleetOrder {
  const costSeconds = [...fleet.costs];
  return {
    tasks: fleet.tasks().map((tasks) => [...tasks]),
    nodes: fleet.chains.map((chain) => chain.nodes()),
    costSeconds,
    longestSeconds: Math.max(...costSeconds),
  };
}

/**
 * Divides the strokes among ships so that the last is done soonest, by shaking as `searchFreely` does. Returns the
 * divisions worth trying, soonest first, because which of them keeps the ships apart is seen only in their paths.
 *
 * @param start the tasks of one ship in order; they are first cut into as many pieces as there are ships
 */
export function* searchFleet(
  problem: FreeProblem,
  ships: number,
  start: readonly number[],
  rule: SequenceRule,
  steps: number,
  seed: number,
): Generator<number, FleetOrder[]> {
  const random = seededRandom(seed);
  const fleet = new Fleet(problem, ships);
  fleet.set(
    Array.from({ length: ships }, (_, ship) => start.slice(Math.round((ship * start.length) / ships), Math.round(((ship + 1) * start.length) / ships))),
  );
  let current = fleet.tasks();
  let currentScore = fleet.score();
  let bestScore = currentScore;
  const kept = new Map<string, FleetOrder>();
  const keep = (): void => {
    if (fleet.overlapLetters() > 1) return;
    const key = fleet
      .tasks()
      .map((tasks) => tasks.join(','))
      .join('/');
    if (kept.has(key)) return;
    kept.set(key, orderOf(fleet));
    if (kept.size <= 2 * KEPT_MOST) return;
    const sorted = [...kept].sort(([, one], [, other]) => one.longestSeconds - other.longestSeconds);
    kept.clear();
    for (const [name, order] of sorted.slice(0, KEPT_MOST)) kept.set(name, order);
  };
  keep();
  for (let step = 0; step < steps; step += 1) {
    if (step % 100 === 99) yield step / steps;
    fleet.set(current);
    shake(fleet, random);
    const score = fleet.score();
    const threshold = 10 * (1 - step / steps) ** 2;
    if (score >= bestScore + KEPT_SECONDS) continue;
    if (!fleet.chains.every((chain) => rule.allows(chain.tasks, () => chain.nodes()))) continue;
    keep();
    if (score >= bestScore + threshold && score >= currentScore) continue;
    current = fleet.tasks();
    currentScore = score;
    bestScore = Math.min(bestScore, score);
  }
  return [...kept.values()].sort((one, other) => one.longestSeconds - other.longestSeconds).slice(0, KEPT_MOST);
}
