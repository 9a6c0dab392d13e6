import type { FreeProblem } from './free-problem.ts';

/**
 * A sequence of tasks with, for each way to fly each of them, the least cost of all before and of all after it.
 * `before[i * width + x]` ends with way x of the task at place i, itself included; `after[i * width + x]` starts
 * with the reposition that follows it. Inserting a task anywhere is then a look at its two neighbours.
 */
export class TaskChain {
  readonly #problem: FreeProblem;
  readonly #width: number;
  #before: Float64Array;
  #after: Float64Array;
  tasks: number[] = [];

  constructor(problem: FreeProblem) {
    this.#problem = problem;
    let width = 0;
    for (let task = 0; task + 1 < problem.firstNodeOf.length; task += 1) {
      width = Math.max(width, problem.firstNodeOf[task + 1]! - problem.firstNodeOf[task]!);
    }
    this.#width = width;
    this.#before = new Float64Array(64 * width);
    this.#after = new Float64Array(64 * width);
  }

  /** Replaces the sequence and works out its tables. */
  set(tasks: number[]): void {
    this.tasks = tasks;
    const size = tasks.length * this.#width;
    if (size > this.#before.length) {
      this.#before = new Float64Array(2 * size);
      this.#after = new Float64Array(2 * size);
    }
    this.#fillBefore();
    this.#fillAfter();
  }

  #fillBefore(): void {
    const { firstNodeOf, nodeCount, costSeconds, ownSeconds } = this.#problem;
    const width = this.#width;
    const before = this.#before;
    for (let place = 0; place < this.tasks.length; place += 1) {
      const task = this.tasks[place]!;
      const first = firstNodeOf[task]!;
      const end = firstNodeOf[task + 1]!;
      if (place === 0) {
        for (let node = first; node < end; node += 1) before[node - first] = ownSeconds[node]!;
        continue;
      }
      const last = this.tasks[place - 1]!;
      const lastFirst = firstNodeOf[last]!;
      const lastEnd = firstNodeOf[last + 1]!;
      for (let node = first; node < end; node += 1) {
        let least = Infinity;
        for (let from = lastFirst; from < lastEnd; from += 1) {
          const seconds = before[(place - 1) * width + from - lastFirst]! + costSeconds[from * nodeCount + node]!;
          if (seconds < least) least = seconds;
        }
        before[place * width + node - first] = least;
      }
    }
  }

  #fillAfter(): void {
    const { firstNodeOf, nodeCount, costSeconds } = this.#problem;
    const width = this.#width;
    const after = this.#after;
    for (let place = this.tasks.length - 1; place >= 0; place -= 1) {
      const task = this.tasks[place]!;
      const first = firstNodeOf[task]!;
      const end = firstNodeOf[task + 1]!;
      if (place === this.tasks.length - 1) {
        after.fill(0, place * width, place * width + end - first);
        continue;
      }
      const next = this.tasks[place + 1]!;
      const nextFirst = firstNodeOf[next]!;
      const nextEnd = firstNodeOf[next + 1]!;
      for (let node = first; node < end; node += 1) {
        let least = Infinity;
        for (let to = nextFirst; to < nextEnd; to += 1) {
          const seconds = costSeconds[node * nodeCount + to]! + after[(place + 1) * width + to - nextFirst]!;
          if (seconds < least) least = seconds;
        }
        after[place * width + node - first] = least;
      }
    }
  }

  /** The least cost of the sequence over all ways to fly its tasks. */
  costSeconds(): number {
    const { firstNodeOf } = this.#problem;
    const last = this.tasks.length - 1;
    if (last < 0) return 0;
    const task = this.tasks[last]!;
    const ways = firstNodeOf[task + 1]! - firstNodeOf[task]!;
    let least = Infinity;
    for (let way = 0; way < ways; way += 1) least = Math.min(least, this.#before[last * this.#width + way]!);
    return least;
  }

  /** The cost after inserting a task before `place` (at the end when `place` is the length). */
  costWithInserted(task: number, place: number): number {
    const { firstNodeOf, nodeCount, costSeconds, ownSeconds } = this.#problem;
    const width = this.#width;
    const first = firstNodeOf[task]!;
    const end = firstNodeOf[task + 1]!;
    const last = place > 0 ? this.tasks[place - 1]! : -1;
    const next = place < this.tasks.length ? this.tasks[place]! : -1;
    let best = Infinity;
    for (let node = first; node < end; node += 1) {
      let here = last < 0 ? ownSeconds[node]! : Infinity;
      if (last >= 0) {
        const lastFirst = firstNodeOf[last]!;
        const lastEnd = firstNodeOf[last + 1]!;
        for (let from = lastFirst; from < lastEnd; from += 1) {
          const seconds = this.#before[(place - 1) * width + from - lastFirst]! + costSeconds[from * nodeCount + node]!;
          if (seconds < here) here = seconds;
        }
      }
      if (here >= best) continue;
      if (next < 0) {
        best = here;
        continue;
      }
      const nextFirst = firstNodeOf[next]!;
      const nextEnd = firstNodeOf[next + 1]!;
      for (let to = nextFirst; to < nextEnd; to += 1) {
        const seconds = here + costSeconds[node * nodeCount + to]! + this.#after[place * width + to - nextFirst]!;
        if (seconds < best) best = seconds;
      }
    }
    return best;
  }

  /** The ways to fly the tasks at that least cost. */
  nodes(): number[] {
    const { firstNodeOf, nodeCount, costSeconds } = this.#problem;
    const nodes: number[] = [];
    let following = -1;
    for (let place = this.tasks.length - 1; place >= 0; place -= 1) {
      const first = firstNodeOf[this.tasks[place]!]!;
      const end = firstNodeOf[this.tasks[place]! + 1]!;
      let least = Infinity;
      let chosen = first;
      for (let node = first; node < end; node += 1) {
        const onward = following < 0 ? 0 : costSeconds[node * nodeCount + following]!;
        const seconds = this.#before[place * this.#width + node - first]! + onward;
        if (seconds < least) {
          least = seconds;
          chosen = node;
        }
      }
      nodes.push(chosen);
      following = chosen;
    }
    return nodes.reverse();
  }
}
