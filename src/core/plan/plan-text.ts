import { directionFromBearing } from '../units/angle.ts';
import { legsOfOrder, shipPlan } from './assemble.ts';
import type { DrawnLetter } from '../letters/drawn-letter.ts';
import { fleetBoundSeconds } from '../order/fleet-bound.ts';
import { type FleetOrder, searchFleet } from '../order/fleet-search.ts';
import { type Arrangement, arrangeFormation } from './formation.ts';
import { freeProblem } from '../order/free-problem.ts';
import { flyableAlternatives, smallestFlyableHeight } from './flyable.ts';
import { airDirectionFromLetter, type LetterFrame, letterFromAir } from '../paths/letter-frame.ts';
import { orderFreely } from '../order/free-order.ts';
import { type LetterOrder, orderLetterByLetter, type StrokeOrder } from '../order/letter-order.ts';
import type { Plan, ShipPlan } from './plan.ts';
import { letterByLetterRule, sequenceRule } from '../order/sequence-rule.ts';
import { type ShipLimits, shipModel } from '../paths/ship-model.ts';
import { leastSmokeSeconds, type StrokeGraph, strokeGraph } from '../order/stroke-graph.ts';
import { planLettersAlike } from './letters-alike.ts';
import { ownHeightStepMetres } from './own-height-step.ts';
import { timetables } from './timetable.ts';
import type { PlanProgress, PlanResult } from './plan-result.ts';

export interface PlanOptions extends ShipLimits {
  readonly text: string;
  readonly frame: LetterFrame;
  readonly letterHeightMetres: number;
  readonly textWidthMetres: number;
  /** `reading`: letter after letter. `free`: any order of strokes, letters begun before others are finished. */
  readonly letterOrder: 'reading' | 'free';
  /**
   * `into-wind`: letters are finished one after another upwind, whichever end of the word that starts from.
   * `free`: from either end, and in free letter order finished in any order.
   */
  readonly progress: 'into-wind' | 'free';
  /** Where the wind blows from, clockwise from true north; null for calm or unknown, which frees the progress. */
  readonly windFromRadians: number | null;
  readonly oilKilogramsPerSecond: number;
  /** Extra cost of a stroke or run-in flown straight on a true heading, as into the sun; Infinity forbids it. */
  readonly strokePenaltySeconds?: (headingRadians: number) => number;
  /** How long a letter may stay unfinished in free letter order, unless written in one go; Infinity by default. */
  readonly longestUnfinishedSeconds?: number;
  /** Shakes the search in free letter order; the same seed gives the same plan. 1 by default. */
  readonly seed?: number;
  /** Work spent on proving a free order, in labels of some microseconds each; 60,000 by default. */
  readonly proofLabels?: number;
  /** About how many start points a closed stroke offers; 16 by default, fewer where there are many. */
  readonly closedStarts?: number;
  /** How many ships share the writing, all alike; 1 by default. */
  readonly ships?: number;
  /** For two ships and more: how far apart they stay, 300 m by default... */
  readonly separationMetres?: number;
  /** ...however far they slip in time against each other, 10 s by default. */
  readonly slipSeconds?: number;
  /** How much farther apart they are planned, since ships do not keep exactly to their places; 0 by default. */
  readonly placeKeepingMetres?: number;
  /** Each ship flies this much higher than the one before; 0 by default. */
  readonly heightStepMetres?: number;
  /** The timetable's airspeed over the one flown, so that a ship that is slow keeps to it; 1 by default. */
  readonly paceShare?: number;
  /** The ships join, wait and leave so much below and above the layer in turn; 152.4 (500 ft) by default. */
  readonly joinUpStepMetres?: number;
}

/** Wind within this of square across the reading direction prefers no end of the word. */
const ACROSS_COSINE = 0.1;
const SEPARATION_METRES = 300;
const SLIP_SECONDS = 10;
const JOIN_UP_STEP_METRES = 152.4;

/** Every way to fly every stroke meets every other in a table: this many keep it under 12 MB. */
const MOST_NODES = 1200;

/** Start points for each closed stroke, fewer where there are many of them. */
function closedStartsFor(letters: readonly DrawnLetter[]): number {
  const strokes = letters.flatMap(({ alternatives }) => alternatives.flatMap((alternative) => alternative.strokes));
  const closed = strokes.filter((stroke) => stroke.closed).length;
  return Math.min(16, Math.max(2, Math.floor((MOST_NODES / 2 - strokes.length) / Math.max(1, closed))));
}

/**
 * The sequences of letters the options allow: each line from its first letter or its last, the upper line before the
 * lower one, since that is how it is read. A wind along the lines says from which end, for both lines alike.
 */
function sequences(letters: readonly DrawnLetter[], options: PlanOptions): number[][] {
  const lines = [...new Set(letters.map(({ line = 0 }) => line))].sort((one, other) => one - other);
  const forward = lines.map((wanted) => letters.flatMap(({ line = 0 }, index) => (line === wanted ? [index] : [])));
  const backward = forward.map((line) => line.toReversed());
  const upwind =
    options.progress === 'free' || options.windFromRadians === null
      ? 0
      : Math.cos(airDirectionFromLetter(0, options.frame) - directionFromBearing(options.windFromRadians));
  if (Math.abs(upwind) >= ACROSS_COSINE) return [(upwind > 0 ? forward : backward).flat()];
  return forward.reduce<number[][]>(
    (begun, line, index) =>
      begun.flatMap((before) => [
        [...before, ...line],
        [...before, ...backward[index]!],
      ]),
    [[]],
  );
}

function planOfShips(graph: StrokeGraph, ships: readonly ShipPlan[], penaltySeconds: number, lowerBoundSeconds: number, options: PlanOptions): Plan {
  const alone = ships.length === 1;
  return {
    text: options.text,
    frame: options.frame,
    letterHeightMetres: options.letterHeightMetres,
    textWidthMetres: options.textWidthMetres,
    trueAirspeedMetresPerSecond: options.trueAirspeedMetresPerSecond,
    writingRadiusMetres: graph.model.writingRadiusMetres,
    turningRadiusMetres: graph.model.turningRadiusMetres,
    runInSeconds: options.runInSeconds,
    runOutSeconds: options.runOutSeconds,
    ships,
    durationSeconds: Math.max(...ships.map(({ legs }) => legs.at(-1)!.endSeconds)),
    separationMetres: alone ? 0 : (options.separationMetres ?? SEPARATION_METRES),
    slipSeconds: alone ? 0 : (options.slipSeconds ?? SLIP_SECONDS),
    penaltySeconds,
    lowerBoundSeconds,
  };
}

function penaltyOf(graph: StrokeGraph, nodes: readonly number[]): number {
  return nodes.reduce((sum, node) => sum + graph.penaltySeconds[node]!, 0);
}

function planOfOrder(graph: StrokeGraph, letters: readonly DrawnLetter[], order: StrokeOrder, lowerBoundSeconds: number, options: PlanOptions): Plan {
  const ship = shipPlan(0, legsOfOrder(graph, letters, order.nodes, 0), options.oilKilogramsPerSecond);
  return planOfShips(graph, [ship], penaltyOf(graph, order.nodes), lowerBoundSeconds, options);
}

/**
 * Plans a text, in steps: order, direction, start on closed strokes and alternative of every letter chosen together for
 * the least time from first smoke to last, equal letters drawn alike. Yields its progress; returns the plan.
 *
 * @param letters as typesetting gives them; blanks may be missing or without strokes
 */
export function planTextSteps(letters: readonly DrawnLetter[], options: PlanOptions): Generator<PlanProgress, PlanResult> {
  return planLettersAlike(letters, (offered) => planLettersSteps(offered, options));
}

/** Plans letters with the alternatives they offer, each letter for itself. */
function* planLettersSteps(letters: readonly DrawnLetter[], options: PlanOptions): Generator<PlanProgress, PlanResult> {
  const limits = shipModel(options);
  // A slower pace changes the times alone: turns are those of the airspeed flown.
  const model = { ...limits, trueAirspeedMetresPerSecond: limits.trueAirspeedMetresPerSecond * (options.paceShare ?? 1) };
  const written = letters.filter(({ alternatives }) => alternatives.some(({ strokes }) => strokes.length > 0));
  if (written.length === 0) return { ok: false, problem: { kind: 'nothing-to-write' } };
  const flyable = new Map(written.map((letter) => [letter, flyableAlternatives(letter, model)]));
  if (written.some((letter) => flyable.get(letter)!.length === 0)) {
    const smallest = smallestFlyableHeight(written, options.letterHeightMetres, model, options.writingBankRadians);
    if (smallest === null) return { ok: false, problem: { kind: 'nothing-to-write' } };
    return { ok: false, problem: { kind: 'too-small', smallest } };
  }
  const graph = strokeGraph(written, (letter) => flyable.get(letter)!, options.frame, model, {
    closedStarts: options.closedStarts ?? closedStartsFor(written),
    fixedDirections: false,
    ...(options.strokePenaltySeconds ? { strokePenaltySeconds: options.strokePenaltySeconds } : {}),
  });
  yield { fraction: 0.1 };

  const offered = sequences(written, options);
  const ordered: LetterOrder[] = [];
  for (const sequence of offered) {
    const order = orderLetterByLetter(graph, sequence);
    if (order !== null) ordered.push(order);
    yield { fraction: 0.2 };
  }
  if (ordered.length === 0) return { ok: false, problem: { kind: 'no-heading-allowed' } };
  // Fewer ships take longer and always fit: what cannot be divided so that the ships stay apart is written by fewer.
  for (let ships = options.ships ?? 1; ships > 1; ships--) {
    const arranged = yield* planFleet(graph, written, offered, ordered, ships, options);
    if (arranged !== null) return { ok: true, plan: arranged };
  }
  if (options.letterOrder === 'reading') {
    const best = ordered.reduce((least, order) => (order.costSeconds < least.costSeconds ? order : least));
    // Smoke alone bounds what was not tried in every order.
    const lowerBoundSeconds = ordered.every(({ exact }) => exact) ? best.costSeconds : leastSmokeSeconds(graph);
    return { ok: true, plan: planOfOrder(graph, written, best, lowerBoundSeconds, options) };
  }

  const free = orderFreely(graph, {
    starts: ordered,
    sequence: options.progress === 'into-wind' && offered.length === 1 ? offered[0]! : null,
    longestUnfinishedSeconds: options.longestUnfinishedSeconds ?? Infinity,
    seed: options.seed ?? 1,
    proofLabels: options.proofLabels ?? 60_000,
  });
  for (let step = free.next(); ; step = free.next()) {
    if (step.done) return { ok: true, plan: planOfOrder(graph, written, step.value, step.value.lowerBoundSeconds, options) };
    yield { fraction: 0.2 + 0.8 * step.value };
  }
}

/** Half of the text's extent from foot to head, with what hangs below or stands above. */
function textHalfDepthMetres(graph: StrokeGraph, frame: LetterFrame): number {
  return graph.nodes.reduce((most, { path }) => Math.max(most, Math.abs(letterFromAir(path.start, frame).yMetres)), 0);
}

function* planFleet(
  graph: StrokeGraph,
  written: readonly DrawnLetter[],
  offered: readonly (readonly number[])[],
  ordered: readonly StrokeOrder[],
  ships: number,
  options: PlanOptions,
): Generator<PlanProgress, Plan | null> {
  const clearance = {
    separationMetres: (options.separationMetres ?? SEPARATION_METRES) + (options.placeKeepingMetres ?? 0),
    slipSeconds: options.slipSeconds ?? SLIP_SECONDS,
  };
  const problem = freeProblem(graph);
  const divisions: FleetOrder[] = [];
  for (const [index, start] of ordered.entries()) {
    const sequence = offered[index]!;
    const rankOf = sequence.map((_, letter) => sequence.indexOf(letter));
    const rule =
      options.letterOrder === 'reading'
        ? letterByLetterRule(problem, rankOf)
        : sequenceRule(problem, offered.length === 1 ? rankOf : null, options.longestUnfinishedSeconds ?? Infinity);
    const tasks = start.nodes.map((node) => problem.taskOf[node]!);
    const search = searchFleet(problem, ships, tasks, rule, 1200 + 120 * written.length, (options.seed ?? 1) + index);
    for (let step = search.next(); ; step = search.next()) {
      if (step.done) {
        divisions.push(...step.value);
        break;
      }
      yield { fraction: 0.2 + (0.5 * (index + step.value)) / ordered.length };
    }
  }
  divisions.sort((one, other) => one.longestSeconds - other.longestSeconds);
  let best: Arrangement | null = null;
  let bestNodes: readonly number[] = [];
  for (const [index, division] of divisions.entries()) {
    const withinSeconds = best?.durationSeconds ?? division.longestSeconds * (ships + 1);
    if (division.longestSeconds >= withinSeconds) break;
    const arranged = arrangeFormation(division, graph, written, options.frame, textHalfDepthMetres(graph, options.frame), clearance, withinSeconds);
    if (arranged !== null) {
      best = arranged;
      bestNodes = division.nodes.flat();
    }
    yield { fraction: 0.7 + (0.3 * index) / divisions.length };
  }
  if (best === null) return null;
  const entries = timetables(best.ships, graph.model, clearance.separationMetres, clearance.slipSeconds);
  const joinUpStepMetres = options.joinUpStepMetres ?? JOIN_UP_STEP_METRES;
  const shipPlans = best.ships.map(({ legs, joinUp, departure }, index) => ({
    ...shipPlan(index, legs, options.oilKilogramsPerSecond, index * (options.heightStepMetres ?? 0)),
    joinUp,
    departure,
    entries: entries[index]!,
    ownHeightStepMetres: ownHeightStepMetres(index, joinUpStepMetres, ships, options.heightStepMetres ?? 0),
  }));
  return planOfShips(graph, shipPlans, penaltyOf(graph, bestNodes), fleetBoundSeconds(problem, ships, best.durationSeconds), options);
}

/** {@link planTextSteps} run to its end. */
export function planText(letters: readonly DrawnLetter[], options: PlanOptions): PlanResult {
  const steps = planTextSteps(letters, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * The plan a tidy mind would fly by hand, to measure savings against: letters in reading order, each in its crisp
 * drawing, whose corners end strokes; strokes in the order and direction that a draughtsman letters them (see
 * `CAPITALS`); no stroke joined to another but where the drawing happens to run on. Curves are one stroke even here:
 * C, J, O, S and U have none to save.
 *
 * @oracle
 */
export function planPlainly(letters: readonly DrawnLetter[], options: PlanOptions): PlanResult {
  const model = shipModel(options);
  const written = letters.filter(({ alternatives }) => alternatives.some(({ strokes }) => strokes.length > 0));
  if (written.length === 0) return { ok: false, problem: { kind: 'nothing-to-write' } };
  const graph = strokeGraph(
    written,
    ({ alternatives }) => [
      Math.max(
        0,
        alternatives.findIndex(({ style }) => style === 'crisp'),
      ),
    ],
    options.frame,
    model,
    { closedStarts: 1, fixedDirections: true },
  );
  const order = orderLetterByLetter(
    graph,
    written.map((_, index) => index),
    true,
  );
  if (order === null) return { ok: false, problem: { kind: 'no-heading-allowed' } };
  return { ok: true, plan: planOfOrder(graph, written, order, 0, options) };
}
