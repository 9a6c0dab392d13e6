import { relativeTo } from '../paths/project-on-path.ts';
import { STATE } from '../tracking/estimate.ts';
import { signedRadians } from '../units/angle.ts';
import { flyRunIn } from './fly-run-in.ts';
import { flyWaitingCircle } from './fly-waiting-circle.ts';
import type { Advice, Flight, FlyingState } from './guidance-state.ts';
import { hungAgain } from './hang-again.ts';
import { airPoseOf, isTrusted, predictedAt } from './present.ts';
import { solveWay, type WayLimits } from './solve-way.ts';
import { strokeStart } from './stroke-start.ts';
import { turnLeadSeconds } from './turn-lead.ts';
import { wayAdvice } from './way-advice.ts';
import { flyWindCircle, windCircleBegun, windCircleDue } from './wind-circle.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

const RUN_IN_HEADING_RADIANS = (25 * Math.PI) / 180;
const RUN_IN_LEFT_RADIANS = (45 * Math.PI) / 180;

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
  const hung = hungAgain(state);
  if (hung !== null) return flyReposition(hung);
  if (flight.datumAtSeconds === null && flight.expectedDatumAtSeconds === null) return flyReposition({ ...state, flight: expectingDatum(state) });
  const waiting = flyWaitingCircle(state);
  if (waiting !== null) return waiting;
  if (state.onWaitingCircle) return flyReposition({ ...state, onWaitingCircle: false, way: null });
  const start = strokeStart(flight, strokeIndex);
  const speed = predictedAt(flight, atSeconds)!.mean[STATE.airspeed]!;
  const aheadSeconds = state.onRunIn ? flight.reactionSeconds : turnLeadSeconds(flight);
  const pose = airPoseOf(predictedAt(flight, atSeconds + aheadSeconds)!, flight);
  const relative = relativeTo(start, pose);
  const toGoMetres = -relative.aheadMetres;
  const headingError = signedRadians(pose.directionRadians - start.directionRadians);
  const waitSeconds = secondsToWait(flight, strokeIndex);
  // Being on the line is no reason to begin before the formation's time.
  const inTime = state.onRunIn || aheadSeconds + toGoMetres / speed > waitSeconds - EARLY_RUN_IN_SECONDS;
  if (inTime && isOnRunIn(state, toGoMetres, relative.rightMetres, headingError, speed)) {
    return flyRunIn(state, start, speed, aheadSeconds, toGoMetres, relative.rightMetres, pose.directionRadians);
  }
  // A stroke that goes straight on from the last one has no run-out; every other has.
  if (atSeconds < state.runOutUntilSeconds) return { ...state, flight: { ...flight, advice: runOutAdvice(flight) } };

  const way = solveWay(pose, start, { ...wayLimits(setup, speed), earliestSeconds: Math.max(0, waitSeconds - aheadSeconds) }, state.way);
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
    const way = solveWay(
      airPoseOf(estimate, flight),
      strokeStart(flight, state.strokeIndex),
      { ...wayLimits(setup, estimate.mean[STATE.airspeed]!), earliestSeconds: 0 },
      null,
    );
    flight = { ...flight, expectedDatumAtSeconds: atSeconds + way.seconds };
  }
  return flight;
}

function wayLimits(setup: Flight['setup'], trueAirspeedMetresPerSecond: number): Omit<WayLimits, 'earliestSeconds'> {
  const { turningBankRadians, maximumBankRadians, runInSeconds } = setup;
  return { trueAirspeedMetresPerSecond, turningBankRadians, maximumBankRadians, runInSeconds };
}

/** With a timed datum a stroke may begin this much before its planned time. */
const EARLY_ALLOWED_SECONDS = 2;
/** A run-in that would come this much sooner still is not taken up. */
const EARLY_RUN_IN_SECONDS = 3;

/** Until the next stroke may begin, where a timed datum says when; 0 where any time will do. */
function secondsToWait({ setup, datumAtSeconds, atSeconds }: Flight, strokeIndex: number): number {
  if (setup.datum.kind !== 'at-time' || datumAtSeconds === null) return 0;
  return Math.max(0, datumAtSeconds + setup.strokes[strokeIndex]!.plannedStartSeconds - EARLY_ALLOWED_SECONDS - atSeconds);
}

function isOnRunIn(state: Repositioning, toGoMetres: number, rightMetres: number, headingError: number, speed: number): boolean {
  const { setup } = state.flight;
  if (toGoMetres < -2 * speed) return false;
  if (state.onRunIn) return Math.abs(headingError) < RUN_IN_LEFT_RADIANS && Math.abs(rightMetres) < 0.15 * setup.letterHeightMetres;
  const reachMetres = (setup.runInSeconds + 1.5) * speed;
  return toGoMetres > 0 && toGoMetres < reachMetres && Math.abs(headingError) < RUN_IN_HEADING_RADIANS && Math.abs(rightMetres) < 15 + 0.15 * toGoMetres;
}

function runOutAdvice(flight: Flight): Advice {
  const last = flight.commands.at(-1);
  const direction = predictedAt(flight, flight.atSeconds)!.mean[STATE.direction]!;
  return {
    command: {
      fromSeconds: flight.atSeconds,
      sense: 'either',
      directionRadians: last?.sense === 'either' ? last.directionRadians : direction,
      bankRadians: 0,
      startsManoeuvre: false,
    },
    smokeInSeconds: null,
    crossTrackMetres: null,
    because: 'run-out',
    next: null,
  };
}
