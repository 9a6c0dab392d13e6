import { bearingFromDirection } from '../units/angle.ts';
import { advanceAirPose, type AirPath, airPathEnd, airPathLengthMetres, type AirPose, reversedAirPath } from '../paths/air-path.ts';
import type { DrawnLetter } from '../letters/drawn-letter.ts';
import { dubinsLengthMetres } from '../paths/dubins-length.ts';
import { airPathFromLetter, type LetterFrame } from '../paths/letter-frame.ts';
import { arriveMetres, departMetres, JOIN_SLACK_METRES, JOIN_SLACK_RADIANS, reversalMetres, shortestPauseMetres } from '../paths/reposition.ts';
import type { ShipModel } from '../paths/ship-model.ts';
import { closedStartsMetres, startedAt } from '../paths/stroke-path.ts';

/** One way to fly one stroke: which, from which end or point. The smoke is on from `path`'s start to its end. */
export interface StrokeNode {
  /** Position in {@link StrokeGraph.letters}. */
  readonly letter: number;
  /** Position in that letter's `alternatives`. */
  readonly alternative: number;
  readonly stroke: number;
  readonly reversed: boolean;
  /** Where a closed stroke begins, along the stroke as drawn. */
  readonly startMetres: number;
  readonly path: AirPath;
}

/** The nodes of one alternative are `firstNode` to `endNode - 1`, stroke by stroke. */
export interface GraphAlternative {
  /** Index among the drawn letter's alternatives. */
  readonly alternativeIndex: number;
  readonly strokeCount: number;
  readonly firstNode: number;
  readonly endNode: number;
}

export interface GraphLetter {
  readonly letterIndex: number;
  readonly character: string;
  readonly alternatives: readonly GraphAlternative[];
}

/**
 * Every way to fly every stroke, and what it takes. `poses` holds four poses for each node, in this order: smoke
 * on, smoke off, where the turns before may end, where the turns after may begin; each as east, north, direction,
 * sine, cosine. Pose p of node n starts at `(n * 4 + p) * 5`.
 */
export interface StrokeGraph {
  readonly letters: readonly GraphLetter[];
  readonly nodes: readonly StrokeNode[];
  readonly smokeSeconds: Float64Array;
  /** Extra cost of flying the stroke this way, as the sun's; Infinity forbids it. */
  readonly penaltySeconds: Float64Array;
  readonly poses: Float64Array;
  /** Bit 0: the stroke starts in a curve, bit 1: it ends in one. */
  readonly curvedEnds: Uint8Array;
  readonly model: ShipModel;
}

const POSE_NUMBERS = 5;
const NODE_NUMBERS = 4 * POSE_NUMBERS;

function writePose(poses: Float64Array, at: number, pose: AirPose): void {
  poses[at] = pose.airEastMetres;
  poses[at + 1] = pose.airNorthMetres;
  poses[at + 2] = pose.directionRadians;
  poses[at + 3] = Math.sin(pose.directionRadians);
  poses[at + 4] = Math.cos(pose.directionRadians);
}

function waysToFly(path: AirPath, closed: boolean, closedStarts: number): { startMetres: number; path: AirPath }[] {
  if (!closed) return [{ startMetres: 0, path }];
  return closedStartsMetres(path, closedStarts).map((startMetres) => ({ startMetres, path: startedAt(path, startMetres) }));
}

/** The worst penalty of the headings held straight: the run-in's and those of the stroke's lines. */
function strokePenalty(path: AirPath, penaltyOf: (headingRadians: number) => number): number {
  let directionRadians = path.start.directionRadians;
  let worst = penaltyOf(bearingFromDirection(directionRadians));
  for (const { lengthMetres, curvaturePerMetre } of path.segments) {
    if (curvaturePerMetre === 0) worst = Math.max(worst, penaltyOf(bearingFromDirection(directionRadians)));
    directionRadians += lengthMetres * curvaturePerMetre;
  }
  return worst;
}

export interface GraphOptions {
  /** About how many start points each closed stroke offers. */
  readonly closedStarts: number;
  readonly fixedDirections: boolean;
  readonly strokePenaltySeconds?: (headingRadians: number) => number;
}

/** Lists every way to fly every stroke of every allowed alternative, with its poses in the air. */
export function strokeGraph(
  letters: readonly DrawnLetter[],
  allowed: (letter: DrawnLetter) => readonly number[],
  frame: LetterFrame,
  model: ShipModel,
  options: GraphOptions,
): StrokeGraph {
  const nodes: StrokeNode[] = [];
  const graphLetters = letters.map((letter, letterPosition): GraphLetter => {
    const alternatives = allowed(letter).map((alternativeIndex, alternative): GraphAlternative => {
      const firstNode = nodes.length;
      const { strokes } = letter.alternatives[alternativeIndex]!;
      strokes.forEach((stroke, strokeIndex) => {
        const drawn = airPathFromLetter(stroke.path, frame);
        const ways = waysToFly(drawn, stroke.closed && !options.fixedDirections, options.closedStarts);
        for (const { startMetres, path } of ways) {
          const node = { letter: letterPosition, alternative, stroke: strokeIndex, startMetres };
          nodes.push({ ...node, reversed: false, path });
          if (!options.fixedDirections) nodes.push({ ...node, reversed: true, path: reversedAirPath(path) });
        }
      });
      return { alternativeIndex, strokeCount: strokes.length, firstNode, endNode: nodes.length };
    });
    return { letterIndex: letter.letterIndex, character: letter.character, alternatives };
  });

  const poses = new Float64Array(nodes.length * NODE_NUMBERS);
  const smokeSeconds = new Float64Array(nodes.length);
  const penaltySeconds = new Float64Array(nodes.length);
  const curvedEnds = new Uint8Array(nodes.length);
  nodes.forEach(({ path }, index) => {
    const end = airPathEnd(path);
    writePose(poses, index * NODE_NUMBERS, path.start);
    writePose(poses, index * NODE_NUMBERS + POSE_NUMBERS, end);
    writePose(poses, index * NODE_NUMBERS + 2 * POSE_NUMBERS, advanceAirPose(path.start, -arriveMetres(model), 0));
    writePose(poses, index * NODE_NUMBERS + 3 * POSE_NUMBERS, advanceAirPose(end, departMetres(model), 0));
    smokeSeconds[index] = airPathLengthMetres(path) / model.trueAirspeedMetresPerSecond;
    penaltySeconds[index] = options.strokePenaltySeconds ? strokePenalty(path, options.strokePenaltySeconds) : 0;
    curvedEnds[index] = (path.segments[0]!.curvaturePerMetre === 0 ? 0 : 1) + (path.segments.at(-1)!.curvaturePerMetre === 0 ? 0 : 2);
  });
  return { letters: graphLetters, nodes, smokeSeconds, penaltySeconds, poses, curvedEnds, model };
}

const TURN = 2 * Math.PI;

/** How many of the ends that a reposition joins lie in a curve. */
export function curvedEndsBetween(graph: StrokeGraph, from: number, to: number): number {
  return (graph.curvedEnds[from]! >> 1) + (graph.curvedEnds[to]! & 1);
}

/** Seconds of the reposition from the end of one node to the start of another; the time of `repositionBetween`. */
export function repositionSeconds(graph: StrokeGraph, from: number, to: number): number {
  const { poses, model } = graph;
  const end = from * NODE_NUMBERS + POSE_NUMBERS;
  const start = to * NODE_NUMBERS;
  const speed = model.trueAirspeedMetresPerSecond;
  const east = poses[start]! - poses[end]!;
  const north = poses[start + 1]! - poses[end + 1]!;
  const sine = poses[end + 3]!;
  const cosine = poses[end + 4]!;
  if (Math.abs(north * cosine - east * sine) <= JOIN_SLACK_METRES) {
    const turn = Math.abs(poses[start + 2]! - poses[end + 2]!);
    if (turn <= JOIN_SLACK_RADIANS || TURN - turn <= JOIN_SLACK_RADIANS) {
      const ahead = east * cosine + north * sine;
      if (Math.abs(ahead) <= JOIN_SLACK_METRES) return 0;
      if (ahead >= shortestPauseMetres(model, curvedEndsBetween(graph, from, to))) return ahead / speed;
    }
  }
  const arrive = start + 2 * POSE_NUMBERS;
  const depart = end + 2 * POSE_NUMBERS;
  const metres = dubinsLengthMetres(
    poses[arrive]! - poses[depart]!,
    poses[arrive + 1]! - poses[depart + 1]!,
    poses[depart + 2]!,
    poses[depart + 3]!,
    poses[depart + 4]!,
    poses[arrive + 2]!,
    poses[arrive + 3]!,
    poses[arrive + 4]!,
    model.turningRadiusMetres,
    reversalMetres(model),
  );
  return (departMetres(model) + metres + arriveMetres(model)) / speed;
}

/** The smoke of the shortest alternative of every letter, with its least penalties: no order takes less. */
export function leastSmokeSeconds(graph: StrokeGraph): number {
  const alternativeSeconds = ({ firstNode, endNode, strokeCount }: GraphAlternative): number => {
    const least = new Float64Array(strokeCount).fill(Infinity);
    for (let node = firstNode; node < endNode; node += 1) {
      const { stroke } = graph.nodes[node]!;
      least[stroke] = Math.min(least[stroke]!, graph.smokeSeconds[node]! + graph.penaltySeconds[node]!);
    }
    return least.reduce((sum, seconds) => sum + seconds, 0);
  };
  return graph.letters.reduce((sum, { alternatives }) => sum + Math.min(...alternatives.map(alternativeSeconds)), 0);
}
