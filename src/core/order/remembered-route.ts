import type { RelaxedRoute } from './relaxed-route.ts';

/** The cheapest route there is when some visits are remembered, and how many labels it took to find. */
export type RememberedRoute =
  /** Every route costs at least what is known. */
  | { readonly kind: 'none-better'; readonly labels: number }
  | { readonly kind: 'route'; readonly labels: number; readonly nodes: readonly number[]; readonly costSeconds: number }
  /** Too many labels; nothing was learned. */
  | { readonly kind: 'gave-up'; readonly labels: number };

/**
 * Labels in flat arrays: label i has its cost, live node, the label it came from, and `words` words of memory from
 * `memory[i * words]`. Labels of one weight and node hang on a list by `next`.
 */
class Labels {
  count = 0;
  readonly words: number;
  costSeconds = new Float64Array(1024);
  node = new Int32Array(1024);
  parent = new Int32Array(1024);
  next = new Int32Array(1024);
  memory: Int32Array;

  constructor(words: number) {
    this.words = words;
    this.memory = new Int32Array(1024 * words);
  }

  reserve(): void {
    if (this.count < this.node.length) return;
    const grow = <Numbers extends Int32Array | Float64Array>(old: Numbers, made: Numbers): Numbers => {
      made.set(old);
      return made;
    };
    const size = 2 * this.node.length;
    this.costSeconds = grow(this.costSeconds, new Float64Array(size));
    this.node = grow(this.node, new Int32Array(size));
    this.parent = grow(this.parent, new Int32Array(size));
    this.next = grow(this.next, new Int32Array(size));
    this.memory = grow(this.memory, new Int32Array(size * this.words));
  }
}

/**
 * What a visit forbids and what is remembered of it (neighbourhoods after Baldacci, Mingozzi and Roberti 2011, grown
 * on demand after Roberti and Mingozzi 2014). A visit forbids its own task and all tasks of the letter's other
 * alternatives; at task t only what `kept` of t holds stays remembered. Words of 32 tasks; bits of live tasks only.
 */
export class RouteMemory {
  readonly words: number;
  readonly bitOf: Int32Array;
  readonly forbids: Int32Array;
  readonly kept: Int32Array;
  readonly #tasks: readonly number[];

  /** @param keptLetters at a task, visits to letters up to this many places away are remembered; Infinity keeps all */
  constructor(route: RelaxedRoute, keptLetters: number) {
    const { problem } = route;
    const tasks = new Set<number>();
    for (const node of route.nodes) tasks.add(problem.taskOf[node]!);
    this.bitOf = new Int32Array(problem.letterOf.length).fill(-1);
    this.#tasks = [...tasks];
    this.#tasks.forEach((task, bit) => (this.bitOf[task] = bit));
    this.words = Math.max(1, Math.ceil(tasks.size / 32));
    this.forbids = new Int32Array(problem.letterOf.length * this.words);
    this.kept = new Int32Array(problem.letterOf.length * this.words);
    for (const task of tasks) {
      for (const other of tasks) {
        if (Math.abs(problem.letterOf[task]! - problem.letterOf[other]!) <= keptLetters) this.#set(this.kept, task, other);
        if (problem.letterOf[task] !== problem.letterOf[other]) continue;
        if (task === other || problem.alternativeOf[task] !== problem.alternativeOf[other]) this.#set(this.forbids, task, other);
      }
    }
  }

  #set(bits: Int32Array, task: number, other: number): void {
    const bit = this.bitOf[other]!;
    bits[task * this.words + (bit >> 5)]! |= 1 << (bit & 31);
  }

  forbidden(memory: Int32Array, at: number, task: number): boolean {
    const bit = this.bitOf[task]!;
    return (memory[at + (bit >> 5)]! & (1 << (bit & 31))) !== 0;
  }

  /** A memory of some tasks. */
  bitsWhere(wanted: (task: number) => boolean): Int32Array {
    const bits = new Int32Array(this.words);
    for (const task of this.#tasks) {
      const bit = this.bitOf[task]!;
      if (wanted(task)) bits[bit >> 5]! |= 1 << (bit & 31);
    }
    return bits;
  }

  /**
   * Remembers more along a route, so that it cannot come back to what it forbade itself; false when it never does,
   * and so is a true order.
   */
  learnFrom(tasks: readonly number[]): boolean {
    let learned = false;
    tasks.forEach((task, place) => {
      for (let earlier = place - 1; earlier >= 0; earlier -= 1) {
        if (!this.forbidden(this.forbids, tasks[earlier]! * this.words, task)) continue;
        for (let between = earlier; between < place; between += 1) this.#set(this.kept, tasks[between]!, task);
        learned = true;
        break;
      }
    });
    return learned;
  }
}

/**
 * Whether a visit keeps letters finishing in the order of `rankOf`, when everything is remembered: a stroke that
 * finishes its letter needs all letters ranked before to be finished. A letter is finished when all its tasks are
 * forbidden.
 */
function orderKeeper(route: RelaxedRoute, memory: RouteMemory, rankOf: readonly number[]): (labelMemory: Int32Array, at: number, task: number) => boolean {
  const { problem } = route;
  const { words } = memory;
  const others = [...problem.letterOf].map((letter, task) =>
    memory.bitsWhere((other) => other !== task && problem.letterOf[other] === letter && problem.alternativeOf[other] === problem.alternativeOf[task]),
  );
  const ranked = rankOf.map((rank) => memory.bitsWhere((task) => rankOf[problem.letterOf[task]!]! < rank));
  const holds = (labelMemory: Int32Array, at: number, bits: Int32Array): boolean => {
    for (let word = 0; word < words; word += 1) if (bits[word]! & ~labelMemory[at + word]!) return false;
    return true;
  };
  return (labelMemory, at, task) => !holds(labelMemory, at, others[task]!) || holds(labelMemory, at, ranked[problem.letterOf[task]!]!);
}

/**
 * The cheapest route under a memory, by labels in order of weight; only those that could still come out under
 * `knownSeconds` are kept. The completions of `route` must be filled.
 *
 * @param mostLabels gives up beyond
 * @param rankOf letters must finish in this order; only with a memory that keeps everything
 */
export function rememberedRoute(
  route: RelaxedRoute,
  memory: RouteMemory,
  knownSeconds: number,
  mostLabels: number,
  rankOf: readonly number[] | null = null,
): RememberedRoute {
  const keepsOrder = rankOf === null ? null : orderKeeper(route, memory, rankOf);
  const { nodes, problem, backward } = route;
  const { totalWeight, weightOf, earliestOf, latestOf } = route.weights;
  const count = nodes.length;
  const { words } = memory;
  const limit = knownSeconds - 1e-6 - route.priceSumSeconds();
  const task = Int32Array.from(nodes, (node) => problem.taskOf[node]!);
  const weight = Int32Array.from(task, (t) => weightOf[t]!);
  const earliest = Int32Array.from(task, (t) => earliestOf[t]!);
  const latest = Int32Array.from(task, (t) => latestOf[t]!);
  const price = Float64Array.from(task, (t) => route.priceSeconds(t));

  // Arcs by their origin.
  const outFirst = new Int32Array(count + 1);
  for (const from of route.arcFrom) outFirst[from + 1]! += 1;
  for (let node = 0; node < count; node += 1) outFirst[node + 1]! += outFirst[node]!;
  const outTo = new Int32Array(route.arcFrom.length);
  const outSeconds = new Float64Array(route.arcFrom.length);
  const fill = outFirst.slice();
  for (let to = 0; to < count; to += 1) {
    for (let arc = route.arcFirst[to]!; arc < route.arcFirst[to + 1]!; arc += 1) {
      const at = fill[route.arcFrom[arc]!]!++;
      outTo[at] = to;
      outSeconds[at] = route.arcSeconds[arc]!;
    }
  }

  const labels = new Labels(words);
  const lists = new Int32Array((totalWeight + 1) * count).fill(-1);
  const scratch = new Int32Array(words);

  /** Adds the label in `scratch` unless one as cheap forbids no more; drops those that it beats likewise. */
  const add = (atWeight: number, node: number, costSeconds: number, parent: number): void => {
    const list = atWeight * count + node;
    let before = -1;
    for (let label = lists[list]!; label >= 0; label = labels.next[label]!) {
      const at = label * words;
      let less = true;
      let more = true;
      for (let word = 0; word < words; word += 1) {
        const old = labels.memory[at + word]!;
        const made = scratch[word]!;
        if (old & ~made) less = false;
        if (made & ~old) more = false;
      }
      if (less && labels.costSeconds[label]! <= costSeconds) return;
      if (more && costSeconds <= labels.costSeconds[label]!) {
        if (before < 0) lists[list] = labels.next[label]!;
        else labels.next[before] = labels.next[label]!;
      } else before = label;
    }
    labels.reserve();
    const label = labels.count++;
    labels.costSeconds[label] = costSeconds;
    labels.node[label] = node;
    labels.parent[label] = parent;
    labels.memory.set(scratch, label * words);
    labels.next[label] = lists[list]!;
    lists[list] = label;
  };

  for (let node = 0; node < count; node += 1) {
    const costSeconds = problem.ownSeconds[nodes[node]!]! - price[node]!;
    if (earliest[node]! > weight[node]!) continue;
    if (costSeconds + backward[(totalWeight - weight[node]!) * count + node]! >= limit) continue;
    if (keepsOrder !== null && !keepsOrder(new Int32Array(words), 0, task[node]!)) continue;
    for (let word = 0; word < words; word += 1) scratch[word] = memory.forbids[task[node]! * words + word]!;
    add(weight[node]!, node, costSeconds, -1);
  }
  for (let atWeight = 1; atWeight < totalWeight; atWeight += 1) {
    for (let node = 0; node < count; node += 1) {
      for (let label = lists[atWeight * count + node]!; label >= 0; label = labels.next[label]!) {
        const soFar = labels.costSeconds[label]!;
        for (let arc = outFirst[node]!; arc < outFirst[node + 1]!; arc += 1) {
          const to = outTo[arc]!;
          const reached = atWeight + weight[to]!;
          if (reached > latest[to]! || reached < earliest[to]!) continue;
          const costSeconds = soFar + outSeconds[arc]! - price[to]!;
          if (costSeconds + backward[(totalWeight - reached) * count + to]! >= limit) continue;
          const toTask = task[to]!;
          if (memory.forbidden(labels.memory, label * words, toTask)) continue;
          if (keepsOrder !== null && !keepsOrder(labels.memory, label * words, toTask)) continue;
          for (let word = 0; word < words; word += 1) {
            scratch[word] = (labels.memory[label * words + word]! & memory.kept[toTask * words + word]!) | memory.forbids[toTask * words + word]!;
          }
          add(reached, to, costSeconds, label);
        }
      }
    }
    if (labels.count > mostLabels) return { kind: 'gave-up', labels: labels.count };
  }

  let best = -1;
  for (let node = 0; node < count; node += 1) {
    for (let label = lists[totalWeight * count + node]!; label >= 0; label = labels.next[label]!) {
      if (best < 0 || labels.costSeconds[label]! < labels.costSeconds[best]!) best = label;
    }
  }
  if (best < 0) return { kind: 'none-better', labels: labels.count };
  const visited: number[] = [];
  for (let label = best; label >= 0; label = labels.parent[label]!) visited.push(nodes[labels.node[label]!]!);
  return {
    kind: 'route',
    labels: labels.count,
    nodes: visited.reverse(),
    costSeconds: labels.costSeconds[best]! + route.priceSumSeconds(),
  };
}
