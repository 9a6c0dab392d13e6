import { repositionSeconds, type StrokeGraph } from './stroke-graph.ts';

/**
 * The choice of a free order in flat arrays. A task is one stroke of one alternative of one letter; its nodes are
 * the ways to fly it, consecutive in the graph. `costSeconds[u * nodeCount + v]` is the reposition from node u to
 * node v with v's smoke and penalty; Infinity where v may not follow u (the same stroke, or another alternative of
 * the same letter).
 */
export interface FreeProblem {
  readonly graph: StrokeGraph;
  readonly nodeCount: number;
  readonly taskOf: Int32Array;
  /** Nodes of task t are `firstNodeOf[t]` to `firstNodeOf[t + 1] - 1`. */
  readonly firstNodeOf: Int32Array;
  readonly letterOf: Int32Array;
  readonly alternativeOf: Int32Array;
  /** Tasks of each letter's alternatives. */
  readonly tasksOf: readonly (readonly (readonly number[])[])[];
  readonly ownSeconds: Float64Array;
  readonly costSeconds: Float64Array;
}

/** Fills the table of all repositions: nodes squared entries, a third of a microsecond each. */
export function freeProblem(graph: StrokeGraph): FreeProblem {
  const nodeCount = graph.nodes.length;
  const taskOf = new Int32Array(nodeCount);
  const firstNodes: number[] = [];
  const letters: number[] = [];
  const alternatives: number[] = [];
  const tasksOf: number[][][] = graph.letters.map((letter) => letter.alternatives.map(() => []));
  graph.nodes.forEach((node, index) => {
    const before = graph.nodes[index - 1];
    if (before === undefined || before.letter !== node.letter || before.alternative !== node.alternative || before.stroke !== node.stroke) {
      tasksOf[node.letter]![node.alternative]!.push(firstNodes.length);
      firstNodes.push(index);
      letters.push(node.letter);
      alternatives.push(node.alternative);
    }
    taskOf[index] = firstNodes.length - 1;
  });
  const letterOf = Int32Array.from(letters);
  const alternativeOf = Int32Array.from(alternatives);
  const ownSeconds = graph.smokeSeconds.map((seconds, node) => seconds + graph.penaltySeconds[node]!);
  const costSeconds = new Float64Array(nodeCount * nodeCount).fill(Infinity);
  for (let u = 0; u < nodeCount; u += 1) {
    const from = taskOf[u]!;
    for (let v = 0; v < nodeCount; v += 1) {
      const to = taskOf[v]!;
      if (from === to || (letterOf[from] === letterOf[to] && alternativeOf[from] !== alternativeOf[to])) continue;
      costSeconds[u * nodeCount + v] = repositionSeconds(graph, u, v) + ownSeconds[v]!;
    }
  }
  return {
    graph,
    nodeCount,
    taskOf,
    firstNodeOf: Int32Array.from([...firstNodes, nodeCount]),
    letterOf,
    alternativeOf,
    tasksOf,
    ownSeconds,
    costSeconds,
  };
}
