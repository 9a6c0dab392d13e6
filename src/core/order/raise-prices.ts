import type { RelaxedRoute } from './relaxed-route.ts';

/** Arcs into each node while prices are guessed. */
const GUESS_ARCS = 12;

/** Good prices to begin with, from the cheapest arcs alone; all arcs are back afterwards, those struck out as well. */
export function guessPrices(route: RelaxedRoute, iterations: number, knownSeconds: number): void {
  route.keepArcs(GUESS_ARCS);
  raisePrices(route, iterations, knownSeconds);
  route.keepArcs();
}

/**
 * Raises the prices of what the cheapest route leaves out and lowers those of what it visits twice (subgradient ascent
 * with the step of Polyak 1969). Keeps the best prices; returns their bound, in seconds.
 *
 * @param knownSeconds of the best order known, which no bound can pass
 */
export function raisePrices(route: RelaxedRoute, iterations: number, knownSeconds: number): number {
  let best = -Infinity;
  let bestLetters = route.letterPriceSeconds.slice();
  let bestShifts = route.taskShiftSeconds.slice();
  let stepFactor = 1;
  let sinceBetter = 0;
  for (let iteration = 0; iteration < iterations; iteration += 1) {
    const bound = route.boundSeconds();
    if (bound > best + 1e-6) {
      best = bound;
      bestLetters = route.letterPriceSeconds.slice();
      bestShifts = route.taskShiftSeconds.slice();
      sinceBetter = 0;
    } else if ((sinceBetter += 1) >= 5) {
      stepFactor /= 2;
      sinceBetter = 0;
    }
    if (best >= knownSeconds - 1e-6) break;
    if (!movePrices(route, route.visits(), stepFactor * Math.max(1, knownSeconds * 1.002 - bound))) break;
  }
  route.letterPriceSeconds.set(bestLetters);
  route.taskShiftSeconds.set(bestShifts);
  return route.boundSeconds();
}

/**
 * Moves the prices by a step that would raise the bound by `riseSeconds` if it were linear; false when every task is
 * visited once.
 */
export function movePrices({ problem, letterPriceSeconds, taskShiftSeconds }: RelaxedRoute, visits: ArrayLike<number>, riseSeconds: number): boolean {
  const { tasksOf } = problem;
  const misses = new Float64Array(tasksOf.length).fill(1);
  const shifts = new Float64Array(visits.length);
  let squares = 0;
  tasksOf.forEach((alternatives, letter) => {
    for (const tasks of alternatives) {
      const mean = tasks.reduce((sum, task) => sum + visits[task]!, 0) / tasks.length;
      misses[letter]! -= mean;
      for (const task of tasks) {
        shifts[task] = mean - visits[task]!;
        squares += shifts[task]! ** 2;
      }
    }
    squares += misses[letter]! ** 2;
  });
  if (squares === 0) return false;
  const step = riseSeconds / squares;
  misses.forEach((miss, letter) => (letterPriceSeconds[letter]! += step * miss));
  shifts.forEach((shift, task) => (taskShiftSeconds[task]! += step * shift));
  return true;
}
