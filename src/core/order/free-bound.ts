import type { FreeProblem } from './free-problem.ts';
import { guessPrices, movePrices, raisePrices } from './raise-prices.ts';
import { RelaxedRoute } from './relaxed-route.ts';
import { rememberedRoute, RouteMemory } from './remembered-route.ts';

export interface FreeBound {
  /** No allowed order costs less. */
  readonly lowerBoundSeconds: number;
  /** An order that costs exactly the bound and less than what was known; null when none was found. */
  readonly order: readonly number[] | null;
}

/** Labels a round may take; about a hundred thousand fit into a tenth of a second. */
const LABELS_PER_ROUND = 300_000;
const SLACK_SECONDS = 1e-6;

/**
 * Proves how good an order is. Rounds of prices on the route without memory strike out most nodes and arcs; then
 * the route is made to remember its own letter and its neighbours', and on demand more, while the prices go on. When
 * the cheapest route is a true order, or no route is cheaper than what is known, the best order is proven.
 *
 * @param knownSeconds cost of the best order found so far
 * @param rankOf order in which letters must be finished, or null
 * @param labels how much work to spend: a gap is left when it does not suffice
 */
export function* proveBound(problem: FreeProblem, knownSeconds: number, rankOf: readonly number[] | null, labels: number): Generator<number, FreeBound> {
  const route = new RelaxedRoute(problem, rankOf);
  let lowerBoundSeconds = 0;
  const proven = { lowerBoundSeconds: knownSeconds, order: null };
  guessPrices(route, 40, knownSeconds);
  yield 0;
  for (const iterations of [3, 30, 30]) {
    const bound = raisePrices(route, iterations, knownSeconds);
    if (bound >= knownSeconds - SLACK_SECONDS) return proven;
    lowerBoundSeconds = Math.max(lowerBoundSeconds, bound);
    route.completions();
    route.strikeOut(knownSeconds);
    if (route.nodes.length === 0) return proven;
    yield 0;
  }

  let spent = 0;
  let keepsAll = false;
  let memory = new RouteMemory(route, 1);
  let stepFactor = 1;
  let sinceBetter = 0;
  let sinceLearned = 0;
  while (spent < labels) {
    route.completions();
    const found = rememberedRoute(route, memory, knownSeconds, Math.min(LABELS_PER_ROUND, labels), keepsAll ? rankOf : null);
    spent += found.labels;
    yield Math.min(1, spent / labels);
    if (found.kind === 'none-better') return proven;
    if (found.kind === 'gave-up') break;
    sinceLearned += 1;
    if (found.costSeconds > lowerBoundSeconds + SLACK_SECONDS) {
      lowerBoundSeconds = found.costSeconds;
      sinceBetter = 0;
    } else if ((sinceBetter += 1) >= 3) {
      stepFactor /= 2;
      sinceBetter = 0;
    }
    const tasks = found.nodes.map((node) => problem.taskOf[node]!);
    const visits = new Int32Array(problem.letterOf.length);
    for (const task of tasks) visits[task]! += 1;
    const moved = movePrices(route, visits, stepFactor * Math.max(0.5, knownSeconds * 1.001 - found.costSeconds));
    // Prices that no longer help leave the rest to memory.
    if (moved && sinceLearned < 4) continue;
    sinceLearned = 0;
    if (memory.learnFrom(tasks)) continue;
    if (rankOf === null || keepsAll) return { lowerBoundSeconds: found.costSeconds, order: found.nodes };
    // A true order that finishes letters out of turn: only a route that remembers everything can tell.
    memory = new RouteMemory(route, Infinity);
    keepsAll = true;
  }
  return { lowerBoundSeconds: Math.min(lowerBoundSeconds, knownSeconds), order: null };
}
