import type { FreeProblem } from './free-problem.ts';
import { strokesOf, type TaskWeights, taskWeights } from './task-weights.ts';

/**
 * The free order with its memory taken away, which makes it easy: a route through nodes whose tasks add up to the
 * weight of the whole text, where a task may come twice and another not at all (state space relaxation,
 * Christofides, Mingozzi and Toth 1981). A letter weighs the same whatever its alternative, whose strokes share it. No order can be cheaper than the cheapest such route.
 *
 * Prices pull the route towards visiting everything once. `priceSeconds[t]` is paid back for each visit of task t;
 * the prices of an alternative add up to its letter's price, the same for all its alternatives, so that every true
 * order gets back the same sum, which the bound adds again.
 *
 * Nodes and arcs that no order better than the best known can use are struck out. Live nodes are numbered anew:
 * `nodes[i]` is the node of the problem. Arcs into live node i are `arcFirst[i]` to `arcFirst[i + 1] - 1`, each with
 * `arcFrom` (a live node) and `arcSeconds`. Tables run over weight and live node: `table[weight * count + i]`.
 */
export class RelaxedRoute {
  readonly problem: FreeProblem;
  readonly letterPriceSeconds: Float64Array;
  /** Deviation of a task's price from an equal share of its letter's; they add up to 0 in every alternative. */
  readonly taskShiftSeconds: Float64Array;
  nodes: Int32Array;
  weights: TaskWeights;
  arcFirst: Int32Array = new Int32Array(0);
  arcFrom: Int32Array = new Int32Array(0);
  arcSeconds: Float64Array = new Float64Array(0);
  /** Least reduced cost of arriving at a node with a weight, the node included. */
  forward: Float64Array = new Float64Array(0);
  /** Least reduced cost of what is left after a node, for the weight left. */
  backward: Float64Array = new Float64Array(0);
  readonly #rankOf: readonly number[] | null;

  /** @param rankOf the order in which letters must be finished, as a rank from 0 for each letter; null for any order */
  constructor(problem: FreeProblem, rankOf: readonly number[] | null = null) {
    this.problem = problem;
    this.#rankOf = rankOf;
    this.letterPriceSeconds = new Float64Array(problem.tasksOf.length);
    this.taskShiftSeconds = new Float64Array(problem.letterOf.length);
    this.nodes = Int32Array.from({ length: problem.nodeCount }, (_, node) => node).filter((node) => problem.ownSeconds[node]! < Infinity);
    this.weights = taskWeights(problem, this.nodes, rankOf);
    this.keepArcs();
  }

  priceSeconds(task: number): number {
    return this.letterPriceSeconds[this.problem.letterOf[task]!]! / strokesOf(this.problem, task) + this.taskShiftSeconds[task]!;
  }

  priceSumSeconds(): number {
    return this.letterPriceSeconds.reduce((sum, price) => sum + price, 0);
  }

  #listArcs(alive: (from: number, to: number) => boolean, most = Infinity): void {
    const { problem, nodes } = this;
    const first = new Int32Array(nodes.length + 1);
    const from: number[] = [];
    const seconds: number[] = [];
    for (let to = 0; to < nodes.length; to += 1) {
      let arcs: { other: number; cost: number }[] = [];
      for (let other = 0; other < nodes.length; other += 1) {
        if (!alive(nodes[other]!, nodes[to]!)) continue;
        arcs.push({ other, cost: problem.costSeconds[nodes[other]! * problem.nodeCount + nodes[to]!]! });
      }
      if (arcs.length > most) arcs = arcs.sort((one, two) => one.cost - two.cost).slice(0, most);
      for (const { other, cost } of arcs) {
        from.push(other);
        seconds.push(cost);
      }
      first[to + 1] = from.length;
    }
    this.arcFirst = first;
    this.arcFrom = Int32Array.from(from);
    this.arcSeconds = Float64Array.from(seconds);
  }

  #isPossible(): (from: number, to: number) => boolean {
    const { costSeconds, nodeCount } = this.problem;
    return (from, to) => costSeconds[from * nodeCount + to]! < Infinity;
  }

  /** Keeps the cheapest arcs into each node, as many as said, which gives prices quickly but no bound; all by default. */
  keepArcs(most = Infinity): void {
    this.#listArcs(this.#isPossible(), most);
  }

  #pricesOfNodes(): Float64Array {
    return Float64Array.from(this.nodes, (node) => this.priceSeconds(this.problem.taskOf[node]!));
  }

  /** Fills `forward` and gives the bound. */
  boundSeconds(): number {
    const { nodes, problem, arcFirst, arcFrom, arcSeconds } = this;
    const { totalWeight } = this.weights;
    const count = nodes.length;
    const size = (totalWeight + 1) * count;
    if (this.forward.length !== size) this.forward = new Float64Array(size);
    const { forward } = this;
    forward.fill(Infinity);
    const prices = this.#pricesOfNodes();
    const weights = Int32Array.from(nodes, (node) => this.weights.weightOf[problem.taskOf[node]!]!);
    const earliest = Int32Array.from(nodes, (node) => this.weights.earliestOf[problem.taskOf[node]!]!);
    const latest = Int32Array.from(nodes, (node) => this.weights.latestOf[problem.taskOf[node]!]!);
    for (let to = 0; to < count; to += 1) {
      if (earliest[to]! <= weights[to]!) forward[weights[to]! * count + to] = problem.ownSeconds[nodes[to]!]! - prices[to]!;
    }
    for (let weight = 1; weight <= totalWeight; weight += 1) {
      for (let to = 0; to < count; to += 1) {
        const left = weight - weights[to]!;
        if (left <= 0 || weight < earliest[to]! || weight > latest[to]!) continue;
        const row = left * count;
        let least = Infinity;
        for (let arc = arcFirst[to]!; arc < arcFirst[to + 1]!; arc += 1) {
          const seconds = forward[row + arcFrom[arc]!]! + arcSeconds[arc]!;
          if (seconds < least) least = seconds;
        }
        if (least < Infinity) forward[weight * count + to] = least - prices[to]!;
      }
    }
    let least = Infinity;
    for (let node = 0; node < count; node += 1) least = Math.min(least, forward[totalWeight * count + node]!);
    return least + this.priceSumSeconds();
  }

  /** Fills `backward`. */
  completions(): void {
    const { nodes, problem, arcFirst, arcFrom, arcSeconds } = this;
    const { totalWeight } = this.weights;
    const count = nodes.length;
    const size = (totalWeight + 1) * count;
    if (this.backward.length !== size) this.backward = new Float64Array(size);
    const { backward } = this;
    backward.fill(Infinity);
    backward.fill(0, 0, count);
    const prices = this.#pricesOfNodes();
    for (let weight = 1; weight <= totalWeight; weight += 1) {
      for (let to = 0; to < count; to += 1) {
        const task = problem.taskOf[nodes[to]!]!;
        const left = weight - this.weights.weightOf[task]!;
        const reached = totalWeight - left;
        if (left < 0 || reached < this.weights.earliestOf[task]! || reached > this.weights.latestOf[task]!) continue;
        const onward = backward[left * count + to]! - prices[to]!;
        if (onward === Infinity) continue;
        for (let arc = arcFirst[to]!; arc < arcFirst[to + 1]!; arc += 1) {
          const at = weight * count + arcFrom[arc]!;
          const seconds = arcSeconds[arc]! + onward;
          if (seconds < backward[at]!) backward[at] = seconds;
        }
      }
    }
  }

  /** How often the cheapest route visits each task; `forward` must be filled. */
  visits(): Int32Array {
    const { nodes, problem, arcFirst, arcFrom, arcSeconds, forward } = this;
    const { totalWeight } = this.weights;
    const count = nodes.length;
    const visits = new Int32Array(problem.letterOf.length);
    let weight = totalWeight;
    let at = 0;
    for (let node = 1; node < count; node += 1) {
      if (forward[weight * count + node]! < forward[weight * count + at]!) at = node;
    }
    for (;;) {
      const task = problem.taskOf[nodes[at]!]!;
      visits[task] = visits[task]! + 1;
      const left = weight - this.weights.weightOf[task]!;
      if (left <= 0) return visits;
      let least = Infinity;
      let before = -1;
      for (let arc = arcFirst[at]!; arc < arcFirst[at + 1]!; arc += 1) {
        const seconds = forward[left * count + arcFrom[arc]!]! + arcSeconds[arc]!;
        if (seconds < least) {
          least = seconds;
          before = arcFrom[arc]!;
        }
      }
      if (before < 0) return visits;
      at = before;
      weight = left;
    }
  }

  /**
   * Strikes out the nodes and arcs over which no route costs less than `knownSeconds`, then the alternatives that
   * lost a stroke, and weighs anew. `forward` and `backward` must be filled; both are stale afterwards.
   */
  strikeOut(knownSeconds: number): void {
    const { nodes, problem, arcFirst, arcFrom, arcSeconds, forward, backward } = this;
    const { totalWeight } = this.weights;
    const count = nodes.length;
    const limit = knownSeconds - 1e-6 - this.priceSumSeconds();
    const prices = this.#pricesOfNodes();
    const kept = new Set<number>();
    const live = new Uint8Array(count);
    for (let to = 0; to < count; to += 1) {
      const own = this.weights.weightOf[problem.taskOf[nodes[to]!]!]!;
      for (let weight = own; weight <= totalWeight && live[to] === 0; weight += 1) {
        if (forward[weight * count + to]! + backward[(totalWeight - weight) * count + to]! < limit) live[to] = 1;
      }
      if (live[to] === 0) continue;
      for (let arc = arcFirst[to]!; arc < arcFirst[to + 1]!; arc += 1) {
        const from = arcFrom[arc]!;
        const onward = arcSeconds[arc]! - prices[to]!;
        for (let weight = 1; weight + own <= totalWeight; weight += 1) {
          if (forward[weight * count + from]! + onward + backward[(totalWeight - weight - own) * count + to]! < limit) {
            kept.add(nodes[from]! * problem.nodeCount + nodes[to]!);
            break;
          }
        }
      }
    }
    const taskLives = new Uint8Array(problem.letterOf.length);
    live.forEach((alive, node) => {
      if (alive === 1) taskLives[problem.taskOf[nodes[node]!]!] = 1;
    });
    this.nodes = nodes.filter((node, index) => {
      const task = problem.taskOf[node]!;
      const strokes = problem.tasksOf[problem.letterOf[task]!]![problem.alternativeOf[task]!]!;
      return live[index] === 1 && strokes.every((stroke) => taskLives[stroke] === 1);
    });
    this.weights = taskWeights(problem, this.nodes, this.#rankOf);
    this.#listArcs((from, to) => kept.has(from * problem.nodeCount + to));
  }
}
