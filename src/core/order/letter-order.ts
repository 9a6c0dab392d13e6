import { type GraphAlternative, repositionSeconds, type StrokeGraph } from './stroke-graph.ts';

/** An order of strokes: nodes of the graph in flying order. */
export interface StrokeOrder {
  readonly nodes: readonly number[];
  /** From first smoke to last, with the penalties of the strokes. */
  readonly costSeconds: number;
}

/** An order of letter after letter, and whether it is proven the best of them. */
export interface LetterOrder extends StrokeOrder {
  readonly exact: boolean;
}

/** What a letter leaves behind: for each node that may end it, the least cost to have written all so far. */
interface LetterExit {
  readonly node: number;
  readonly costSeconds: number;
  /** The letter's nodes in flying order. */
  readonly nodes: readonly number[];
  readonly before: LetterExit | null;
}

/** Beyond this many strokes a letter's own order is as it was drawn: sets of strokes double with each. */
export const MOST_ORDERED_STROKES = 9;

/** Costs inside one alternative: `within[i * n + j]` from its node i to its node j, `entry[i]` to have flown i first. */
interface AlternativeCosts {
  readonly firstNode: number;
  readonly strokeCount: number;
  readonly n: number;
  readonly stroke: Int32Array;
  readonly own: Float64Array;
  readonly within: Float64Array;
  readonly entry: Float64Array;
  /** Which exit of the letter before leads to `entry`; -1 for none. */
  readonly entryFrom: Int32Array;
}

function alternativeCosts(graph: StrokeGraph, { firstNode, endNode, strokeCount }: GraphAlternative, entries: readonly LetterExit[]): AlternativeCosts {
  const n = endNode - firstNode;
  const stroke = Int32Array.from({ length: n }, (_, i) => graph.nodes[firstNode + i]!.stroke);
  const own = Float64Array.from({ length: n }, (_, i) => graph.smokeSeconds[firstNode + i]! + graph.penaltySeconds[firstNode + i]!);
  const within = new Float64Array(n * n).fill(Infinity);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) if (stroke[i] !== stroke[j]) within[i * n + j] = repositionSeconds(graph, firstNode + i, firstNode + j);
  }
  const entry = entries.length === 0 ? own.slice() : new Float64Array(n).fill(Infinity);
  const entryFrom = new Int32Array(n).fill(-1);
  for (let i = 0; i < n; i += 1) {
    entries.forEach((exit, index) => {
      const seconds = exit.costSeconds + repositionSeconds(graph, exit.node, firstNode + i) + own[i]!;
      if (seconds < entry[i]!) {
        entry[i] = seconds;
        entryFrom[i] = index;
      }
    });
  }
  return { firstNode, strokeCount, n, stroke, own, within, entry, entryFrom };
}

/**
 * Ends of an alternative over every order, direction and start point of its strokes (Held and Karp 1962):
 * `cost[set * n + i]` is the least cost of having flown the strokes of `set`, the last of them as node i;
 * `previous` says which node came before.
 */
function exitsOfAnyOrder(costs: AlternativeCosts, entries: readonly LetterExit[]): LetterExit[] {
  const { n, stroke, own, within, strokeCount, firstNode } = costs;
  const sets = 1 << strokeCount;
  const cost = new Float64Array(sets * n).fill(Infinity);
  const previous = new Int32Array(sets * n).fill(-1);
  for (let i = 0; i < n; i += 1) cost[(1 << stroke[i]!) * n + i] = costs.entry[i]!;
  for (let set = 1; set < sets; set += 1) {
    for (let i = 0; i < n; i += 1) {
      const soFar = cost[set * n + i]!;
      if (soFar === Infinity) continue;
      for (let j = 0; j < n; j += 1) {
        if (set & (1 << stroke[j]!)) continue;
        const at = (set | (1 << stroke[j]!)) * n + j;
        const seconds = soFar + within[i * n + j]! + own[j]!;
        if (seconds < cost[at]!) {
          cost[at] = seconds;
          previous[at] = i;
        }
      }
    }
  }
  const exits: LetterExit[] = [];
  for (let i = 0; i < n; i += 1) {
    const costSeconds = cost[(sets - 1) * n + i]!;
    if (costSeconds === Infinity) continue;
    const order: number[] = [];
    let set = sets - 1;
    let first = i;
    for (let at = i; at >= 0;) {
      order.unshift(firstNode + at);
      first = at;
      const back = previous[set * n + at]!;
      set &= ~(1 << stroke[at]!);
      at = back;
    }
    exits.push({ node: firstNode + i, costSeconds, nodes: order, before: entries[costs.entryFrom[first]!] ?? null });
  }
  return exits;
}

/** Ends of an alternative whose strokes keep the order they were drawn in; directions and start points are free. */
function exitsInDrawnOrder(costs: AlternativeCosts, entries: readonly LetterExit[]): LetterExit[] {
  const { n, stroke, own, within, strokeCount, firstNode } = costs;
  const cost = Float64Array.from({ length: n }, (_, i) => (stroke[i] === 0 ? costs.entry[i]! : Infinity));
  const previous = new Int32Array(n).fill(-1);
  // Nodes stand stroke by stroke, so every node's predecessors are done before it.
  for (let j = 0; j < n; j += 1) {
    for (let i = 0; i < j; i += 1) {
      if (stroke[j] !== stroke[i]! + 1) continue;
      const seconds = cost[i]! + within[i * n + j]! + own[j]!;
      if (seconds < cost[j]!) {
        cost[j] = seconds;
        previous[j] = i;
      }
    }
  }
  const exits: LetterExit[] = [];
  for (let i = 0; i < n; i += 1) {
    if (stroke[i] !== strokeCount - 1 || cost[i] === Infinity) continue;
    const order: number[] = [];
    let first = i;
    for (let at = i; at >= 0; at = previous[at]!) {
      order.unshift(firstNode + at);
      first = at;
    }
    exits.push({ node: firstNode + i, costSeconds: cost[i]!, nodes: order, before: entries[costs.entryFrom[first]!] ?? null });
  }
  return exits;
}

/**
 * The quickest way to write letter after letter in the given sequence: exact over alternatives, orders, directions
 * and start points, because only the pose at which a letter is left matters to what follows. Letters of more than
 * {@link MOST_ORDERED_STROKES} strokes keep their drawn order, and the result is then not exact. Null when penalties
 * forbid every way.
 *
 * @param drawnOrder strokes of every letter in the order they were drawn
 */
export function orderLetterByLetter(graph: StrokeGraph, sequence: readonly number[], drawnOrder = false): LetterOrder | null {
  let exits: LetterExit[] = [];
  let exact = true;
  for (const letterPosition of sequence) {
    const entries = exits;
    exits = graph.letters[letterPosition]!.alternatives.flatMap((alternative) => {
      const costs = alternativeCosts(graph, alternative, entries);
      if (drawnOrder || alternative.strokeCount > MOST_ORDERED_STROKES) {
        exact = exact && drawnOrder;
        return exitsInDrawnOrder(costs, entries);
      }
      return exitsOfAnyOrder(costs, entries);
    });
    if (exits.length === 0) return null;
  }
  let best: LetterExit | null = null;
  for (const exit of exits) if (best === null || exit.costSeconds < best.costSeconds) best = exit;
  if (best === null) return null;
  const nodes: number[] = [];
  for (let exit: LetterExit | null = best; exit !== null; exit = exit.before) nodes.unshift(...exit.nodes);
  return { nodes, costSeconds: best.costSeconds, exact };
}
