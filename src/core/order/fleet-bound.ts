import type { FreeProblem } from './free-problem.ts';
import { guessPrices } from './raise-prices.ts';
import { RelaxedRoute } from './relaxed-route.ts';
import { leastSmokeSeconds } from './stroke-graph.ts';

/**
 * A time that no division among so many ships can beat. Whatever the ships fly is a set of routes whose weights add
 * up to the text's, so the cheapest such set under any prices bounds the sum of their times, and the longest takes
 * at least an even share of it.
 *
 * @param knownSeconds what the best division found takes; only to scale the steps of the prices
 */
export function fleetBoundSeconds(problem: FreeProblem, ships: number, knownSeconds: number): number {
  const route = new RelaxedRoute(problem);
  guessPrices(route, 30, knownSeconds * ships);
  route.boundSeconds();
  const { forward, nodes } = route;
  const { totalWeight } = route.weights;
  const count = nodes.length;
  const least = new Float64Array(totalWeight + 1).fill(Infinity);
  least[0] = 0;
  for (let weight = 1; weight <= totalWeight; weight += 1) {
    for (let node = 0; node < count; node += 1) least[weight] = Math.min(least[weight]!, forward[weight * count + node]!);
  }
  let together = least.slice();
  for (let ship = 1; ship < ships; ship += 1) {
    const more = new Float64Array(totalWeight + 1).fill(Infinity);
    for (let own = 0; own <= totalWeight; own += 1) {
      for (let rest = 0; rest + own <= totalWeight; rest += 1) more[own + rest] = Math.min(more[own + rest]!, least[own]! + together[rest]!);
    }
    together = more;
  }
  const routesSeconds = together[totalWeight]! + route.priceSumSeconds();
  return Math.min(knownSeconds, Math.max(routesSeconds, leastSmokeSeconds(problem.graph)) / ships);
}
