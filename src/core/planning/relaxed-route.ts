import type { FreeProblem } from './free-problem.ts';

/** Arcs into each node while prices are guessed. */
const GUESS_ARCS = 12;

/**
 * The free order with its memory taken away, which makes it easy: a route through nodes whose tasks add up to the
 * weight of the whole text, where a task may come twice and another not at all (state space relaxation,
 * Christofides, Mingozzi and Toth 1981). A letter weighs `letterWeight` whatever its alternative, whose strokes
 * share it. No order can be cheaper than the cheapest such route.
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
  letterWeight = 1;
  totalWeight = 1;
  weightOf: Int32Array;
  /** The weight a route has, with a task, when it visits that task: at least and at most. */
  earliestOf: Int32Array;
  latestOf: Int32Array;
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
    this.weightOf = new Int32Array(problem.letterOf.length);
    this.earliestOf = new Int32Array(problem.letterOf.length);
    this.latestOf = new Int32Array(problem.letterOf.length);
    this.nodes = Int32Array.from({ length: problem.nodeCount }, (_, node) => node).filter((node) => problem.ownSeconds[node]! < Infinity);
    this.#weigh();
    this.#listArcs(this.#isPossible());
  }

  /** Strokes of the alternative that a task belongs to. */
  strokesOf(task: number): number {
    return this.problem.tasksOf[this.problem.letterOf[task]!]![this.problem.alternativeOf[task]!]!.length;
  }

  priceSeconds(task: number): number {
    return this.letterPriceSeconds[this.problem.letterOf[task]!]! / this.strokesOf(task) + this.taskShiftSeconds[task]!;
  }

  priceSumSeconds(): number {
    return this.letterPriceSeconds.reduce((sum, price) => sum + price, 0);
  }

  /** A letter weighs as much as its most strokes; strokes of fewer share that out in whole numbers. */
  #weigh(): void {
    const { problem } = this;
    let weight = 1;
    for (const node of this.nodes) weight = Math.max(weight, this.strokesOf(problem.taskOf[node]!));
    this.letterWeight = weight;
    this.totalWeight = weight * problem.tasksOf.length;
    for (const alternatives of problem.tasksOf) {
      for (const tasks of alternatives) {
        const share = Math.floor(weight / tasks.length);
        const rest = weight - share * tasks.length;
        tasks.forEach((task, index) => (this.weightOf[task] = share + (index < rest ? 1 : 0)));
      }
    }
    this.earliestOf.set(this.weightOf);
    this.latestOf.fill(this.totalWeight);
    if (this.#rankOf !== null) this.#narrow(this.#rankOf);
  }

  /**
   * Letters finished in an order bound the weight of a visit. A letter of one stroke is finished by it, so all that
   * rank before are; a letter that is not finished yet leaves those that rank after it unfinished too, each short of
   * at least one stroke.
   */
  #narrow(rankOf: readonly number[]): void {
    const unfinished = new Float64Array(rankOf.length);
    for (const node of this.nodes) {
      const task = this.problem.taskOf[node]!;
      const rank = rankOf[this.problem.letterOf[task]!]!;
      unfinished[rank] = Math.max(unfinished[rank]!, this.letterWeight - this.weightOf[task]!);
    }
    for (let task = 0; task < this.weightOf.length; task += 1) {
      const rank = rankOf[this.problem.letterOf[task]!]!;
      if (this.strokesOf(task) === 1) this.earliestOf[task] = (rank + 1) * this.letterWeight;
      const after = unfinished.subarray(rank + 1).reduce((sum, weight) => sum + weight, 0);
      this.latestOf[task] = Math.min(this.totalWeight, (rank + 1) * this.letterWeight + after);
    }
  }

  /** @param most keeps only the cheapest arcs into each node, which gives prices quickly but no bound */
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

  /** Good prices to begin with, from the cheapest arcs alone; all arcs are back afterwards. */
  guessPrices(iterations: number, knownSeconds: number): void {
    this.#listArcs(this.#isPossible(), GUESS_ARCS);
    this.raisePrices(iterations, knownSeconds);
    this.#listArcs(this.#isPossible());
  }

  #pricesOfNodes(): Float64Array {
    return Float64Array.from(this.nodes, (node) => this.priceSeconds(this.problem.taskOf[node]!));
  }

  /** Fills `forward` and gives the bound. */
  boundSeconds(): number {
    const { nodes, problem, totalWeight, arcFirst, arcFrom, arcSeconds } = this;
    const count = nodes.length;
    const size = (totalWeight + 1) * count;
    if (this.forward.length !== size) this.forward = new Float64Array(size);
    const { forward } = this;
    forward.fill(Infinity);
    const prices = this.#pricesOfNodes();
    const weights = Int32Array.from(nodes, (node) => this.weightOf[problem.taskOf[node]!]!);
    const earliest = Int32Array.from(nodes, (node) => this.earliestOf[problem.taskOf[node]!]!);
    const latest = Int32Array.from(nodes, (node) => this.latestOf[problem.taskOf[node]!]!);
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
    const { nodes, problem, totalWeight, arcFirst, arcFrom, arcSeconds } = this;
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
        const left = weight - this.weightOf[task]!;
        const reached = totalWeight - left;
        if (left < 0 || reached < this.earliestOf[task]! || reached > this.latestOf[task]!) continue;
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
    const { nodes, problem, totalWeight, arcFirst, arcFrom, arcSeconds, forward } = this;
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
      const left = weight - this.weightOf[task]!;
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
   * Raises the prices of what a route leaves out and lowers those of what it visits twice, by a step that would
   * raise the bound by `riseSeconds` if it were linear; false when the route visits everything once.
   */
  movePrices(visits: ArrayLike<number>, riseSeconds: number): boolean {
    const { tasksOf } = this.problem;
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
    misses.forEach((miss, letter) => (this.letterPriceSeconds[letter]! += step * miss));
    shifts.forEach((shift, task) => (this.taskShiftSeconds[task]! += step * shift));
    return true;
  }

  /**
   * Raises the prices of what the route leaves out and lowers those of what it visits twice (subgradient ascent
   * with the step of Polyak 1969). Keeps the best prices; returns their bound.
   */
  raisePrices(iterations: number, knownSeconds: number): number {
    let best = -Infinity;
    let bestLetters = this.letterPriceSeconds.slice();
    let bestShifts = this.taskShiftSeconds.slice();
    let stepFactor = 1;
    let sinceBetter = 0;
    for (let iteration = 0; iteration < iterations; iteration += 1) {
      const bound = this.boundSeconds();
      if (bound > best + 1e-6) {
        best = bound;
        bestLetters = this.letterPriceSeconds.slice();
        bestShifts = this.taskShiftSeconds.slice();
        sinceBetter = 0;
      } else if ((sinceBetter += 1) >= 5) {
        stepFactor /= 2;
        sinceBetter = 0;
      }
      if (best >= knownSeconds - 1e-6) break;
      if (!this.movePrices(this.visits(), stepFactor * Math.max(1, knownSeconds * 1.002 - bound))) break;
    }
    this.letterPriceSeconds.set(bestLetters);
    this.taskShiftSeconds.set(bestShifts);
    return this.boundSeconds();
  }

  /**
   * Strikes out the nodes and arcs over which no route costs less than `knownSeconds`, then the alternatives that
   * lost a stroke, and weighs anew. `forward` and `backward` must be filled; both are stale afterwards.
   */
  strikeOut(knownSeconds: number): void {
    const { nodes, problem, totalWeight, arcFirst, arcFrom, arcSeconds, forward, backward } = this;
    const count = nodes.length;
    const limit = knownSeconds - 1e-6 - this.priceSumSeconds();
    const prices = this.#pricesOfNodes();
    const kept = new Set<number>();
    const live = new Uint8Array(count);
    for (let to = 0; to < count; to += 1) {
      const own = this.weightOf[problem.taskOf[nodes[to]!]!]!;
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
    this.#weigh();
    this.#listArcs((from, to) => kept.has(from * problem.nodeCount + to));
  }
}
