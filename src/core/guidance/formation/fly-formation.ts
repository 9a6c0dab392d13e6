import { airPathEnd, airPathLengthMetres, type AirPose } from '../../paths/air-path.ts';
import { TIGHTEST_ROUND } from '../../plan/circle-kept-clear.ts';
import { relativeTo } from '../../paths/project-on-path.ts';
import { STATE } from '../../tracking/estimate.ts';
import { asked } from '../../tracking/turn-command.ts';
import { signedRadians } from '../../units/angle.ts';
import { REASONS } from '../cues.ts';
import { flyToStroke, runOutAdvice, wayLimits } from '../strokes/fly-to-stroke.ts';
import { type FormationProgress, isEstablished, waitsForLeadsTime } from './formation-progress.ts';
import { hungAsWanted } from '../hanging/hang-as-given.ts';
import { leadHangsOtherwise } from '../hanging/hung-alike.ts';
import { heightChangeSeconds } from './height-change.ts';
import type { FormationEntry, FormationSetup } from './formation-setup.ts';
import type { LatenessWindow } from '../../plan/plan.ts';
import type { Advice, Flight, FlyingState } from '../guidance-state.ts';
import { aimedLateness, nextWindow, type NextWindow, type OwnPace } from './next-window.ts';
import { leftTimetable } from './left-timetable.ts';
import { nextStrokeIndex } from '../strokes/next-stroke.ts';
import { distanceToPointsMetres, pathPoints } from '../ways/path-points.ts';
import { doubtWords } from '../place-doubt.ts';
import { airPoseOf, predictedAt } from '../present.ts';
import { solveWay } from '../ways/solve-way.ts';
import { turnLeadSeconds } from '../ways/turn-lead.ts';
import { roundCue, standsOnCircle } from './round-cue.ts';
import type { WaitingCircle } from './waiting-circle.ts';
import { plainAdvice, wayAdvice } from '../ways/way-advice.ts';
import { wayToCircle } from './way-to-circle.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** What a tick of a formation's ship works with. */
interface Now {
  readonly state: Repositioning;
  readonly flight: Flight;
  readonly formation: FormationProgress;
  readonly plan: FormationSetup;
  readonly circle: WaitingCircle;
  readonly datumAtSeconds: number;
  /** When a turn cued now begins. */
  readonly aheadSeconds: number;
  readonly pose: AirPose;
  readonly speed: number;
}

/** Nearer than this to the leaving pose the circle is taken up. */
const TAKEN_UP_SECONDS = 2.5;
/** So little is left of the last circle: the way begins. */
const LEFT_RADIANS = 0.12;
/** Established: so near to the circle, in its radius, for a full round. */
const BAND_RADII = 0.45;
/** Farther from its centre than this the circle is gone back to as at first. */
const OFF_CIRCLE_RADII = 2.2;
/** The layer is gone to so long before it must be. */
const AT_LAYER_BEFORE_SECONDS = 20;
/** Farther than this off the planned way the timetable is left. */
const OFF_WAY_METRES = 260;
const WAY_POINTS_METRES = 70;
/** A stroke may be begun this much before its time. */
const EARLY_ALLOWED_SECONDS = 0.5;
const EARLY_SPARE_SECONDS = 0.2;
/** What the last turn before a stroke was seen to gain on its way, above all of ships slower than planned. */
const GAINED_IN_TURNS_SECONDS = 2.3;
/** Two windows that lie no farther apart follow at once: clocks are known no better than that. */
const SLIP_SECONDS = 2.5;
/** So long before its window ends a ship hurries. */
const DUE_BEFORE_SECONDS = 2.5;
const FULL_RADIANS = 2 * Math.PI;

/** Where a ship of a formation is led: to its circle, round it, through its part while that is proven, and out. */
export function flyFormation(before: Repositioning): FlyingState | null {
  const state = hungAsWanted(before) as Repositioning;
  const { flight } = state;
  const { setup, formation, datumAtSeconds, atSeconds } = flight;
  if (formation === null || setup.formation === undefined || setup.waitingCircle === undefined || datumAtSeconds === null) return null;
  const aheadSeconds = state.onRunIn ? flight.hands.turnReactionSeconds : turnLeadSeconds(flight);
  const ahead = predictedAt(flight, atSeconds + aheadSeconds)!;
  const now: Now = {
    state,
    flight,
    formation,
    plan: setup.formation,
    circle: setup.waitingCircle,
    datumAtSeconds,
    aheadSeconds,
    pose: airPoseOf(ahead, flight),
    speed: ahead.mean[STATE.airspeed]!,
  };
  switch (formation.part) {
    case 'joining':
      return join(now);
    case 'circling':
      return circleOn(now);
    case 'timetable':
      return keepTimetable(now);
    case 'leaving':
      return leave(now);
  }
}

/** A part of a formation's flight with what has changed, the smoke off. */
function going(
  { state, flight, formation }: Now,
  changes: Partial<FormationProgress>,
  advice: Advice | null,
  rest: Partial<Repositioning> = {},
): Repositioning {
  return { ...state, onRunIn: false, goAround: null, ...rest, flight: { ...flight, advice, formation: { ...formation, ...changes } } };
}

/** What a breaking away asks for while it lasts; null when it is over. */
export function breakAwayAdvice(flight: Flight, direction: number): Advice | null {
  const breakAway = flight.formation?.breakAway ?? null;
  if (breakAway === null || flight.atSeconds >= breakAway.untilSeconds) return null;
  const { sense, directionRadians } = breakAway;
  const quarter = sense === 'left' ? Math.PI / 2 : -Math.PI / 2;
  const command =
    sense === 'either'
      ? asked(flight.atSeconds, sense, directionRadians)
      : asked(flight.atSeconds, sense, signedRadians(direction + quarter), flight.setup.turningBankRadians);
  return plainAdvice(command, flight.formation?.left ?? REASONS.toCircle);
}

function join(now: Now): FlyingState {
  const { state, flight, formation, plan, circle, pose, speed, aheadSeconds } = now;
  const away = breakAwayAdvice(flight, pose.directionRadians);
  if (away !== null) return going(now, { lateSeconds: null }, away, { way: null });
  const target = nextEntry(now);
  if (target === null) return givenUp(now);
  const limits = wayLimits(flight.setup, speed);
  const way = wayToCircle(pose, circle.leave, plan.others, limits, state.way);
  const joined = { ...formation, breakAway: null };
  if (way.seconds <= TAKEN_UP_SECONDS || onCircle(now))
    return circleOn({ ...now, formation: { ...joined, part: 'circling', turnedRadians: 0, lastBearingRadians: null } });
  const ready = flight.atSeconds + aheadSeconds + way.seconds + roundSeconds(now) + climbSeconds(now);
  const next = nextWindow(target, now.datumAtSeconds, ready, ownPace(now, target));
  const advice = { ...wayAdvice({ ...state, goAround: null }, way, speed, aheadSeconds), smokeInSeconds: null, because: formation.left ?? REASONS.toCircle };
  return going({ ...now, formation: joined }, { lateSeconds: lateOf(now, next), window: next?.window ?? null }, advice, { way });
}

/** The way into the next stroke to be flown; null when there is none. */
function nextEntry({ state, plan, formation }: Now): FormationEntry | null {
  if (formation.clockBroken) return plan.entries[0] ?? null;
  return plan.entries.find(({ strokeIndex }) => strokeIndex === state.strokeIndex) ?? null;
}

/** How a ship keeps the timetable, by the airspeed it is found to have: on its longest stroke, since it catches up on its ways. */
function ownPace({ flight, speed }: Now, entry: FormationEntry | undefined): OwnPace {
  const { setup } = flight;
  const longestMetres = Math.max(...setup.strokes.map(({ path }) => airPathLengthMetres(path)));
  const first = setup.strokes[entry?.strokeIndex ?? 0]!;
  return {
    fallsBehindSeconds: (longestMetres / speed - longestMetres / setup.trueAirspeedMetresPerSecond) / 2,
    longerWaySeconds: entry === undefined ? 0 : airPathLengthMetres(entry.path) / speed - (first.plannedStartSeconds - entry.leaveSeconds),
  };
}

function lateOf({ formation }: Now, next: NextWindow | null): number | null {
  return formation.clockBroken || next === null ? null : next.lateSeconds;
}

function roundSeconds({ circle, speed }: Now): number {
  return (FULL_RADIANS * circle.radiusMetres) / speed;
}

/** From the ship's own height to the layer; what of it has passed already is taken off. */
function climbSeconds({ flight, plan, formation }: Now): number {
  const whole = heightChangeSeconds(plan.ownHeightMetres, flight.setup.layerHeightMetres);
  return formation.toLayerSinceSeconds === null ? whole : Math.max(0, formation.toLayerSinceSeconds + whole - flight.atSeconds);
}

/** From the layer back to the ship's own height. */
function backDown({ flight, plan }: Now): Pick<FormationProgress, 'toLayerSinceSeconds' | 'offLayerAtSeconds'> {
  const seconds = heightChangeSeconds(flight.setup.layerHeightMetres, plan.ownHeightMetres);
  return { toLayerSinceSeconds: null, offLayerAtSeconds: flight.atSeconds + seconds };
}

function onCircle(now: Now): boolean {
  const { fromCentreMetres, outwardRadians } = standsOnCircle(now.circle, now.pose);
  return Math.abs(fromCentreMetres - now.circle.radiusMetres) < 0.3 * now.circle.radiusMetres && Math.abs(outwardRadians) < 0.6;
}

/** Turned since the last tick, as long as the ship keeps within the circle's band. */
function turnedOn(now: Now): Pick<FormationProgress, 'turnedRadians' | 'lastBearingRadians'> {
  const { formation, circle } = now;
  const { bearingRadians: bearing, fromCentreMetres } = standsOnCircle(circle, now.pose);
  if (Math.abs(fromCentreMetres - circle.radiusMetres) > BAND_RADII * circle.radiusMetres) return { turnedRadians: 0, lastBearingRadians: bearing };
  const sign = circle.turn === 'left' ? 1 : -1;
  const step = formation.lastBearingRadians === null ? 0 : sign * signedRadians(bearing - formation.lastBearingRadians);
  return { turnedRadians: Math.max(0, formation.turnedRadians + step), lastBearingRadians: bearing };
}

function circleOn(before: Now): FlyingState {
  const turned = turnedOn(before);
  const now: Now = { ...before, formation: { ...before.formation, ...turned, part: 'circling' } };
  const { state, flight, formation, circle, pose, speed, aheadSeconds, datumAtSeconds } = now;
  const entry = nextEntry(now);
  if (entry === null) return givenUp(now);
  const { fromCentreMetres, phaseRadians: phase } = standsOnCircle(circle, pose);
  if (fromCentreMetres > OFF_CIRCLE_RADII * circle.radiusMetres) {
    // A datum called anew moves all circles alike: whoever is at the layer stays there until it is on its circle again.
    return join({ ...now, formation: { ...formation, part: 'joining', turnedRadians: 0, lastBearingRadians: null } });
  }
  const nowSeconds = flight.atSeconds + aheadSeconds;
  const limits = { ...flight.setup, ...flight.hands, trueAirspeedMetresPerSecond: speed };
  const round = roundSeconds(now);
  const toEstablish = Math.max(0, FULL_RADIANS - formation.turnedRadians) / FULL_RADIANS;
  const established = isEstablished(formation);
  const climb = climbSeconds(now);
  const poseAgain = (Math.max(0, phase) / FULL_RADIANS) * round * TIGHTEST_ROUND;
  const ready = nowSeconds + Math.max(toEstablish * round + climb, poseAgain);
  const otherwise = leadHangsOtherwise(flight) || formation.wanted !== null;
  const doubted = flight.placeDoubt === null ? null : doubtWords(flight.placeDoubt);
  // By two datums the ways of two ships were never proven apart.
  const timedOtherwise = waitsForLeadsTime(formation);
  const waits = formation.clockBroken || formation.held || otherwise || timedOtherwise || doubted !== null;
  const next = waits ? null : nextWindow(entry, datumAtSeconds, ready, ownPace(now, entry));
  if (next === null && !waits) return givenUp(now);
  const secondsLeft = next === null ? 10 * round : next.leaveAtSeconds - nowSeconds;
  const wantsLayer = next !== null && established && secondsLeft < climb + AT_LAYER_BEFORE_SECONDS;
  const changes: Partial<FormationProgress> = {
    // Once at the layer it stays there: nobody ever passes its circle, unless the word is hung elsewhere.
    toLayerSinceSeconds: formation.toLayerSinceSeconds ?? (wantsLayer ? flight.atSeconds : null),
    ...(otherwise && formation.toLayerSinceSeconds !== null ? backDown(now) : {}),
    window: next?.window ?? null,
    lateSeconds: lateOf(now, next),
    breakAway: null,
  };
  const cue = roundCue(circle, pose, secondsLeft, limits);
  if (next !== null && established && climb <= 0 && cue.toGoRadians < LEFT_RADIANS) {
    const late = nowSeconds - datumAtSeconds - entry.leaveSeconds;
    if (late >= next.window.fromSeconds && late <= next.window.toSeconds) {
      return keepTimetable({
        ...now,
        state: { ...state, way: null, onRunIn: false, goAround: null },
        formation: { ...formation, ...changes, part: 'timetable', left: null, fromCircleTo: state.strokeIndex },
      });
    }
  }
  const command = asked(flight.atSeconds, circle.turn, cue.directionRadians, cue.bankRadians);
  const smokeInSeconds =
    next === null
      ? null
      : secondsLeft + (flight.setup.strokes[entry.strokeIndex]!.plannedStartSeconds - entry.leaveSeconds) + aheadSeconds - flight.setup.valveOnSeconds;
  const because = formation.held
    ? REASONS.heldOnCircle
    : otherwise
      ? REASONS.hungOtherwise
      : timedOtherwise
        ? REASONS.timedOtherwise
        : formation.clockBroken
          ? REASONS.clockBroken
          : (doubted ?? (formation.left === null ? REASONS.onCircle : `${formation.left}: wait`));
  return going(now, changes, { ...plainAdvice(command, because), smokeInSeconds }, { way: null });
}

/** No window is left, or nothing to write: out, at the ship's own height. */
function givenUp(now: Now): FlyingState {
  const { flight, formation } = now;
  const left = nextStrokeIndex(flight) !== null;
  const progress = flight.progress.map((one) => (one.status === 'to-fly' ? ({ status: 'skipped' } as const) : one));
  return {
    phase: 'finished',
    how: left ? 'given-up' : 'complete',
    flight: { ...flight, progress, advice: null, formation: { ...formation, toLayerSinceSeconds: null, window: null, lateSeconds: null } },
  };
}

function keepTimetable(now: Now): FlyingState {
  const { state, flight, formation, plan, pose, datumAtSeconds, aheadSeconds } = now;
  const { window } = formation;
  const leavesBecause = (why: string): FlyingState => {
    const left: Repositioning = { ...state, way: null, onRunIn: false, goAround: null, flight: leftTimetable({ ...flight, formation }, why) };
    return flyFormation(left) ?? left;
  };
  if (window === null) return leavesBecause(REASONS.offTimetable);
  if (state.goAround !== null) return leavesBecause(state.goAround);
  const { plannedStartSeconds } = flight.setup.strokes[state.strokeIndex]!;
  const entry = plan.entries.find(({ strokeIndex }) => strokeIndex === state.strokeIndex);
  const path = formation.fromCircleTo === state.strokeIndex ? entry?.path : plan.ways[state.strokeIndex];
  const near = path == null ? undefined : pathPoints(path, WAY_POINTS_METRES);
  if (near !== undefined && distanceToPointsMetres(pose, near) > OFF_WAY_METRES) return leavesBecause(REASONS.offTimetable);
  const earliestLateness = window.fromSeconds + EARLY_SPARE_SECONDS;
  const wantedLateness = Math.max(
    earliestLateness + GAINED_IN_TURNS_SECONDS,
    aimedLateness(window, ownPace(now, entry).fallsBehindSeconds) - EARLY_ALLOWED_SECONDS,
  );
  const plannedInSeconds = datumAtSeconds + plannedStartSeconds - flight.atSeconds;
  const flown = flyToStroke(
    { ...state, flight: { ...flight, formation } },
    // On the line of its run-in a ship goes on as long as it is inside the window: there is no room left to wait.
    {
      waitSeconds: Math.max(0, plannedInSeconds + wantedLateness),
      dueInSeconds: plannedInSeconds + window.toSeconds - DUE_BEFORE_SECONDS,
      earlyRunInSeconds: wantedLateness - earliestLateness,
      ...(near === undefined ? {} : { near }),
    },
  );
  if (flown.phase !== 'repositioning') return flown;
  if (flown.goAround !== null) return leavesBecause(flown.goAround);
  if (flown.way === null) return flown;
  const late = flight.atSeconds + aheadSeconds + flown.way.seconds - datumAtSeconds - plannedStartSeconds;
  const kept = late <= window.toSeconds ? window : slippedInto(now, window, late);
  if (kept === null) return leavesBecause(REASONS.tooLate);
  return { ...flown, flight: { ...flown.flight, formation: { ...formation, window: kept, lateSeconds: late } } };
}

/**
 * A ship that falls out of its window is let into the next one of the way it came by, where that follows at once: what was
 * proven of a way was proven of all that comes after it. Null where it does not.
 */
function slippedInto({ plan, formation }: Now, window: LatenessWindow, late: number): LatenessWindow | null {
  const cameBy = plan.entries.find(({ strokeIndex }) => strokeIndex === formation.fromCircleTo);
  const next = cameBy?.windows.find(({ fromSeconds }) => fromSeconds > window.fromSeconds);
  if (next === undefined || next.fromSeconds - window.toSeconds > SLIP_SECONDS || late > next.toSeconds) return null;
  return next;
}

/** On the way out: at its end the flight is over, and the ship goes on as it flies. */
function leave(now: Now): FlyingState {
  const { state, flight, plan, pose, speed, aheadSeconds } = now;
  if (flight.atSeconds < state.runOutUntilSeconds) return going(now, {}, { ...runOutAdvice(flight), because: REASONS.wayOut }, { way: null });
  const end = airPathEnd(plan.departure);
  const way = solveWay(
    pose,
    end,
    { ...wayLimits(flight.setup, speed), runInSeconds: 0, earliestSeconds: 0, near: pathPoints(plan.departure, WAY_POINTS_METRES) },
    state.way,
  );
  const beyond = relativeTo(end, pose).aheadMetres;
  if (way.seconds < TAKEN_UP_SECONDS || (beyond > 0 && beyond < 1000)) return givenUp(now);
  return going(now, { lateSeconds: null }, { ...wayAdvice(state, way, speed, aheadSeconds), smokeInSeconds: null, because: REASONS.wayOut }, { way });
}

/**
 * A flight of a formation that is over. With all written it goes on from the end of its way out; otherwise back to its own
 * circle, at its own height, where it waits for what the lead says.
 */
export function flyOut(state: Extract<FlyingState, { phase: 'finished' }>): FlyingState {
  const { flight, how } = state;
  const { setup, atSeconds, formation } = flight;
  const aheadSeconds = turnLeadSeconds(flight);
  const estimate = predictedAt(flight, atSeconds + aheadSeconds);
  if (setup.formation === undefined || setup.waitingCircle === undefined || formation === null || estimate === null) return state;
  const pose = airPoseOf(estimate, flight);
  const speed = estimate.mean[STATE.airspeed]!;
  const advice =
    breakAwayAdvice(flight, pose.directionRadians) ??
    (how === 'complete' ? { ...runOutAdvice(flight), because: '' } : backToCircle(flight, setup.waitingCircle, pose, speed, aheadSeconds));
  return { ...state, flight: { ...flight, advice } };
}

function backToCircle(flight: Flight, circle: WaitingCircle, pose: AirPose, speed: number, aheadSeconds: number): Advice {
  const limits = { ...flight.setup, ...flight.hands, trueAirspeedMetresPerSecond: speed };
  const { fromCentreMetres } = standsOnCircle(circle, pose);
  if (fromCentreMetres < OFF_CIRCLE_RADII * circle.radiusMetres) {
    const cue = roundCue(circle, pose, (20 * Math.PI * circle.radiusMetres) / speed, limits);
    return plainAdvice(asked(flight.atSeconds, circle.turn, cue.directionRadians, cue.bankRadians), '');
  }
  const way = wayToCircle(pose, circle.leave, flight.setup.formation?.others ?? [], wayLimits(flight.setup, speed), null);
  return { ...wayAdvice({ flight, strokeIndex: 0, goAround: null }, way, speed, aheadSeconds), smokeInSeconds: null };
}
