import { type AirPose, airPoseAt } from '../planning/air-path.ts';
import { relativeTo } from '../planning/project-on-path.ts';
import { STATE } from '../tracking/estimate.ts';
import type { TurnCommand } from '../tracking/turn-command.ts';
import { signedRadians } from '../units/angle.ts';
import { interceptDirection } from './follow-line.ts';
import { gateRefusal } from './gate.ts';
import type { Advice, Flight, FlyingState, StrokeProgress } from './guidance-state.ts';
import { airPoseOf, driftOf, fixAgeSeconds, isTrusted, predictedAt } from './present.ts';
import { solveWay, type Way, type WayLimits } from './solve-way.ts';
import { rollOutDirection, turnAhead } from './turn-ahead.ts';
import { flyWindCircle, windCircleBegun, windCircleDue } from './wind-circle.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** A broken stroke is taken up again this much before its break, so that no gap shows. */
const OVERLAP_METRES = 25;
/** A turn of less than this is flown as a change of heading; a turn already cued goes on until less is left. */
const SMALL_TURN_RADIANS = (9 * Math.PI) / 180;
const TURN_LEFT_RADIANS = (3 * Math.PI) / 180;
const RUN_IN_LOOKAHEAD_SECONDS = 4;
const RUN_IN_INTERCEPT_RADIANS = (20 * Math.PI) / 180;
const RUN_IN_HEADING_RADIANS = (25 * Math.PI) / 180;
const RUN_IN_LEFT_RADIANS = (45 * Math.PI) / 180;

/** Where the smoke of a stroke is to begin: its start, or just before its break. */
export function strokeStart(flight: Flight, strokeIndex: number): AirPose {
  const stroke = flight.setup.strokes[strokeIndex]!;
  return airPoseAt(stroke.path, startAlongMetres(flight.progress[strokeIndex]!));
}

/** How far along the stroke its smoke is to begin. */
export function startAlongMetres(progress: StrokeProgress): number {
  return progress.status === 'to-fly' ? Math.max(0, progress.smokedMetres - OVERLAP_METRES) : 0;
}

/** Re-solves the way to the next stroke from the present state, and begins the stroke when the gate lets it. */
export function flyReposition(state: Repositioning): FlyingState {
  const { flight, strokeIndex } = state;
  if (!isTrusted(flight)) return { ...state, flight: { ...flight, advice: null } };
  const { setup, atSeconds } = flight;
  if (!flight.windCircleDecided) {
    const windCircle = windCircleDue(flight) ? windCircleBegun(flight) : null;
    return flyReposition({ ...state, windCircle, flight: { ...flight, windCircleDecided: true } });
  }
  const circling = flyWindCircle(state);
  if (circling !== null) return circling;
  if (state.windCircle !== null) return flyReposition({ ...state, windCircle: null });
  if (flight.datumAtSeconds === null && flight.expectedDatumAtSeconds === null) return flyReposition({ ...state, flight: expectingDatum(state) });
  const start = strokeStart(flight, strokeIndex);
  const speed = predictedAt(flight, atSeconds)!.mean[STATE.airspeed]!;
  const rollSeconds = setup.turningBankRadians / setup.rollRateRadiansPerSecond / 2;
  const aheadSeconds = flight.reactionSeconds + (state.onRunIn ? 0 : rollSeconds);
  const pose = airPoseOf(predictedAt(flight, atSeconds + aheadSeconds)!, flight);
  const relative = relativeTo(start, pose);
  const toGoMetres = -relative.aheadMetres;
  const headingError = signedRadians(pose.directionRadians - start.directionRadians);
  if (isOnRunIn(state, toGoMetres, relative.rightMetres, headingError, speed)) {
    return flyRunIn(state, start, speed, aheadSeconds, toGoMetres, relative.rightMetres, pose.directionRadians);
  }
  // A stroke that goes straight on from the last one has no run-out; every other has.
  if (atSeconds < state.runOutUntilSeconds) return { ...state, flight: { ...flight, advice: runOutAdvice(flight) } };

  const stroke = setup.strokes[strokeIndex]!;
  const earliestSeconds = flight.datumAtSeconds === null ? 0 : Math.max(0, flight.datumAtSeconds + stroke.plannedStartSeconds - EARLY_ALLOWED_SECONDS - atSeconds - aheadSeconds);
  const way = solveWay(
    pose,
    start,
    { ...wayLimits(setup, speed), earliestSeconds: setup.datum.kind === 'at-time' ? earliestSeconds : 0 },
    state.way,
  );
  const arrivalSeconds = atSeconds + aheadSeconds + way.seconds;
  const expected = flight.expectedDatumAtSeconds;
  if (flight.datumAtSeconds === null && expected !== null && Math.abs(arrivalSeconds - expected) > EXPECTATION_KEPT_SECONDS) {
    return { ...state, way: null, onRunIn: false, flight: { ...flight, expectedDatumAtSeconds: null, advice: wayAdvice(state, way, speed, aheadSeconds) } };
  }
  return { ...state, way, onRunIn: false, flight: { ...flight, advice: wayAdvice(state, way, speed, aheadSeconds) } };
}

/** The expected first smoke is left where it is while the way's end stays within this of it. */
const EXPECTATION_KEPT_SECONDS = 20;
const EXPECTATION_ROUNDS = 6;

/** When the first smoke may be expected: where the way ends depends on the drift until then, so a few rounds. */
function expectingDatum(state: Repositioning): Flight {
  const { setup, atSeconds } = state.flight;
  let flight = { ...state.flight, expectedDatumAtSeconds: atSeconds };
  for (let round = 0; round < EXPECTATION_ROUNDS; round += 1) {
    const estimate = predictedAt(flight, atSeconds)!;
    const way = solveWay(airPoseOf(estimate, flight), strokeStart(flight, state.strokeIndex), { ...wayLimits(setup, estimate.mean[STATE.airspeed]!), earliestSeconds: 0 }, null);
    flight = { ...flight, expectedDatumAtSeconds: atSeconds + way.seconds };
  }
  return flight;
}

function wayLimits(setup: Flight['setup'], trueAirspeedMetresPerSecond: number): Omit<WayLimits, 'earliestSeconds'> {
  const { turningBankRadians, maximumBankRadians, runInSeconds } = setup;
  return { trueAirspeedMetresPerSecond, turningBankRadians, maximumBankRadians, runInSeconds };
}

/** With ships in formation a stroke may begin this much before its planned time. */
const EARLY_ALLOWED_SECONDS = 4;

function isOnRunIn(state: Repositioning, toGoMetres: number, rightMetres: number, headingError: number, speed: number): boolean {
  const { setup } = state.flight;
  if (toGoMetres < -2 * speed) return false;
  if (state.onRunIn) return Math.abs(headingError) < RUN_IN_LEFT_RADIANS && Math.abs(rightMetres) < 0.15 * setup.letterHeightMetres;
  const reachMetres = (setup.runInSeconds + 1.5) * speed;
  return (
    toGoMetres > 0 &&
    toGoMetres < reachMetres &&
    Math.abs(headingError) < RUN_IN_HEADING_RADIANS &&
    Math.abs(rightMetres) < 15 + 0.15 * toGoMetres
  );
}

function flyRunIn(
  state: Repositioning,
  start: AirPose,
  speed: number,
  aheadSeconds: number,
  toGoMetres: number,
  rightMetres: number,
  headingNow: number,
): FlyingState {
  const { flight, strokeIndex } = state;
  const { setup, atSeconds } = flight;
  const direction = interceptDirection(start.directionRadians, rightMetres, RUN_IN_LOOKAHEAD_SECONDS * speed, RUN_IN_INTERCEPT_RADIANS);
  const toStartSeconds = toGoMetres / speed + aheadSeconds;
  const smokeInSeconds = toStartSeconds - setup.valveOnSeconds;
  const advice: Advice = {
    command: headingCommand(flight, direction, headingNow),
    smokeInSeconds: Math.max(0, smokeInSeconds),
    crossTrackMetres: rightMetres,
    because: 'run-in',
    next: nextTurn(flight, strokeIndex, toStartSeconds),
  };
  const way: Way | null = state.way === null ? null : { ...state.way, seconds: Math.max(0, toGoMetres / speed) };
  if (smokeInSeconds > flight.reactionSeconds) return { ...state, way, onRunIn: true, goAround: null, flight: { ...flight, advice } };

  const onAt = predictedAt(flight, atSeconds + flight.reactionSeconds + setup.valveOnSeconds)!;
  const poseAtOn = airPoseOf(onAt, flight);
  const refusal = gateRefusal(
    {
      crossTrackMetres: relativeTo(start, poseAtOn).rightMetres,
      headingErrorRadians: poseAtOn.directionRadians - start.directionRadians,
      airspeedMetresPerSecond: speed,
      fixAgeSeconds: fixAgeSeconds(flight)!,
      lateSeconds: -smokeInSeconds,
    },
    setup.letterHeightMetres,
    setup.trueAirspeedMetresPerSecond,
  );
  if (refusal !== null) return { ...state, way: null, onRunIn: false, goAround: refusal, flight: { ...flight, advice: { ...advice, smokeInSeconds: null, because: refusal } } };
  return {
    phase: 'onStroke',
    strokeIndex,
    alongMetres: startAlongMetres(flight.progress[strokeIndex]!) - Math.max(0, toStartSeconds) * speed,
    onSinceSeconds: atSeconds,
    deferredEastMetres: 0,
    deferredNorthMetres: 0,
    flight: {
      ...flight,
      undo: null,
      smokeCuedAtSeconds: atSeconds,
      ...datumAtFirstSmoke(flight, atSeconds + Math.max(0, toStartSeconds)),
      advice,
    },
  };
}

/** A heading to fly: as a turn while it is far off, so that the wings stay where they are until it is near. */
function headingCommand({ setup, commands, atSeconds }: Flight, directionRadians: number, headingNow: number): TurnCommand {
  const toGo = signedRadians(directionRadians - headingNow);
  const sense = toGo > 0 ? 'left' : 'right';
  const least = commands.at(-1)?.sense === sense ? TURN_LEFT_RADIANS : SMALL_TURN_RADIANS;
  const turning = Math.abs(toGo) > least;
  return {
    fromSeconds: atSeconds,
    sense: turning ? sense : 'either',
    directionRadians,
    bankRadians: turning ? setup.turningBankRadians : 0,
    startsManoeuvre: false,
  };
}

/** The drift is zero when the first smoke begins; what it was believed to be just before goes into the text's place. */
function datumAtFirstSmoke(flight: Flight, onAtSeconds: number): Pick<Flight, 'datumAtSeconds' | 'movedEastMetres' | 'movedNorthMetres'> {
  const { datumAtSeconds, movedEastMetres, movedNorthMetres } = flight;
  if (datumAtSeconds !== null) return { datumAtSeconds, movedEastMetres, movedNorthMetres };
  const drift = driftOf(predictedAt(flight, onAtSeconds)!, flight);
  return {
    datumAtSeconds: onAtSeconds,
    movedEastMetres: movedEastMetres + drift.eastMetres,
    movedNorthMetres: movedNorthMetres + drift.northMetres,
  };
}

function runOutAdvice(flight: Flight): Advice {
  const last = flight.commands.at(-1);
  const direction = predictedAt(flight, flight.atSeconds)!.mean[STATE.direction]!;
  return {
    command: { fromSeconds: flight.atSeconds, sense: 'either', directionRadians: last?.sense === 'either' ? last.directionRadians : direction, bankRadians: 0, startsManoeuvre: false },
    smokeInSeconds: null,
    crossTrackMetres: null,
    because: 'run-out',
    next: null,
  };
}

function wayAdvice(state: Repositioning, way: Way, speed: number, aheadSeconds: number): Advice {
  const { flight } = state;
  const because = state.goAround === null ? `to stroke ${state.strokeIndex + 1}` : state.goAround;
  const last = flight.commands.at(-1)?.sense;
  const first = commandOnWay(way, 0, flight.atSeconds, last === 'left' || last === 'right' ? last : null);
  const next = first.untilMetres < Infinity ? commandOnWay(way, first.untilMetres + 1, flight.atSeconds, null) : null;
  return {
    command: first.command,
    smokeInSeconds: Math.max(0, way.seconds + aheadSeconds - flight.setup.valveOnSeconds),
    crossTrackMetres: null,
    because,
    next: next === null ? null : { command: next.command, inSeconds: first.untilMetres / speed + aheadSeconds },
  };
}

/** What to fly at a place on the way: a turn with its roll-out, or a heading, small turns being headings too. */
function commandOnWay(way: Way, alongMetres: number, fromSeconds: number, going: 'left' | 'right' | null): { command: TurnCommand; untilMetres: number } {
  const segments = way.path.segments;
  let passedMetres = 0;
  let direction = way.path.start.directionRadians;
  for (const segment of segments) {
    const endMetres = passedMetres + segment.lengthMetres;
    const turned = segment.lengthMetres * segment.curvaturePerMetre;
    const least = going !== null && turned > 0 === (going === 'left') ? TURN_LEFT_RADIANS : SMALL_TURN_RADIANS;
    if (endMetres > alongMetres && Math.abs(turned) > least) {
      const turn = turnAhead(way.path, Math.max(passedMetres, alongMetres), direction)!;
      return {
        command: { fromSeconds, sense: turn.sense, directionRadians: rollOutDirection(turn), bankRadians: way.bankRadians, startsManoeuvre: false },
        untilMetres: Math.max(passedMetres, alongMetres) + turn.toGoMetres,
      };
    }
    direction = signedRadians(direction + turned);
    if (endMetres > alongMetres && segment.curvaturePerMetre === 0) {
      const isLast = segment === segments.at(-1);
      return { command: { fromSeconds, sense: 'either', directionRadians: direction, bankRadians: 0, startsManoeuvre: false }, untilMetres: isLast ? Infinity : endMetres };
    }
    passedMetres = endMetres;
  }
  return { command: { fromSeconds, sense: 'either', directionRadians: direction, bankRadians: 0, startsManoeuvre: false }, untilMetres: Infinity };
}

/** The first turn of the stroke itself, if it begins with one. */
function nextTurn(flight: Flight, strokeIndex: number, inSeconds: number): Advice['next'] {
  const { path } = flight.setup.strokes[strokeIndex]!;
  const turn = turnAhead(path, 0, path.start.directionRadians);
  if (turn === null) return null;
  return {
    command: { fromSeconds: flight.atSeconds, sense: turn.sense, directionRadians: rollOutDirection(turn), bankRadians: flight.setup.writingBankRadians, startsManoeuvre: false },
    inSeconds,
  };
}
