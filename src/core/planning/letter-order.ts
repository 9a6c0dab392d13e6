import { repositionSeconds, type StrokeGraph } from './stroke-graph.ts';

/** An order of strokes: nodes of the graph in flying order. */
export interface StrokeOrder {
  readonly nodes: readonly number[];
  /** From first smoke to last, with the penalties of the strokes. */
  readonly costSeconds: number;
}

/** What a letter leaves behind: for each node that may end it, the least cost to have written all so far. */
interface LetterExit {
  readonly node: number;
  readonly costSeconds: number;
  /** The letter's nodes in flying order. */
  readonly nodes: readonly number[];
  readonly before: LetterExit | null;
}

/**
 * All ends of one letter, each with its least cost. Exact over the alternatives, and within one over every order,
 * direction and start point of its strokes (Held and Karp 1962): `cost[set * n + i]` is the least cost of having
 * flown the strokes of `set`, the last of them as the alternative's node i; `previous` says which node came before,
 * or -1 - e for the exit e of the letter before.
 */
function letterExits(graph: StrokeGraph, letterPosition: number, entries: readonly LetterExit[], fixedOrder: boolean): LetterExit[] {
  const exits: LetterExit[] = [];
  for (const { firstNode, endNode, strokeCount } of graph.letters[letterPosition]!.alternatives) {
    const n = endNode - firstNode;
    const sets = 1 << strokeCount;
    const cost = new Float64Array(sets * n).fill(Infinity);
    const previous = new Int32Array(sets * n);
    const within = new Float64Array(n * n).fill(Infinity);
    const stroke = Int32Array.from({ length: n }, (_, i) => graph.nodes[firstNode + i]!.stroke);
    const own = Float64Array.from({ length: n }, (_, i) => graph.smokeSeconds[firstNode + i]! + graph.penaltySeconds[firstNode + i]!);
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j < n; j += 1) {
        if (stroke[i] === stroke[j] || (fixedOrder && stroke[j] !== stroke[i]! + 1)) continue;
        within[i * n + j] = repositionSeconds(graph, firstNode + i, firstNode + j);
      }
    }
    for (let i = 0; i < n; i += 1) {
      if (fixedOrder && stroke[i] !== 0) continue;
      const at = (1 << stroke[i]!) * n + i;
      if (entries.length === 0) cost[at] = own[i]!;
      entries.forEach((entry, index) => {
        const seconds = entry.costSeconds + repositionSeconds(graph, entry.node, firstNode + i) + own[i]!;
        if (seconds < cost[at]!) {
          cost[at] = seconds;
          previous[at] = -1 - index;
        }
      });
    }
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
    for (let i = 0; i < n; i += 1) {
      const costSeconds = cost[(sets - 1) * n + i]!;
      if (costSeconds === Infinity) continue;
      const nodes: number[] = [];
      let set = sets - 1;
      let node = i;
      while (node >= 0) {
        nodes.push(firstNode + node);
        const back = previous[set * n + node]!;
        set &= ~(1 << stroke[node]!);
        node = set === 0 ? -1 : back;
        if (set === 0) exits.push({ node: firstNode + i, costSeconds, nodes: nodes.reverse(), before: entries[-1 - back] ?? null });
      }
    }
  }
  return exits;
}

/**
 * The quickest way to write letter after letter in the given sequence: exact, because only the pose at which a
 * letter is left matters to what follows. Null when penalties forbid every way.
 *
 * @param fixedOrder strokes of a letter in the order they were drawn
 */
export function orderLetterByLetter(graph: StrokeGraph, sequence: readonly number[], fixedOrder = false): StrokeOrder | null {
  let exits: LetterExit[] = [];
  for (const letterPosition of sequence) {
    exits = letterExits(graph, letterPosition, exits, fixedOrder);
    if (exits.length === 0) return null;
  }
  let best: LetterExit | null = null;
  for (const exit of exits) if (best === null || exit.costSeconds < best.costSeconds) best = exit;
  if (best === null) return null;
  const nodes: number[] = [];
  for (let exit: LetterExit | null = best; exit !== null; exit = exit.before) nodes.unshift(...exit.nodes);
  return { nodes, costSeconds: best.costSeconds };
}
