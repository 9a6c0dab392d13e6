import { asked } from '../../tracking/turn-command.ts';
import type { AirPoint } from '../../paths/air-path.ts';
import { relativeTo } from '../../paths/project-on-path.ts';
import { STATE } from '../../tracking/estimate.ts';
import { signedRadians } from '../../units/angle.ts';
import { flyRunIn } from './fly-run-in.ts';
import type { Advice, Flight, FlyingState } from '../guidance-state.ts';
import { airPoseOf, predictedAt } from '../present.ts';
import { solveWay, type Way, type WayLimits } from '../ways/solve-way.ts';
import { strokeStart } from './stroke-start.ts';
import { turnLeadSeconds } from '../ways/turn-lead.ts';
import { plainAdvice, wayAdvice } from '../ways/way-advice.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** What a way to a stroke is held to. */
export interface Pace {
  /** Until the stroke may begin; 0 where any time will do. */
  readonly waitSeconds: number;
  /** Until it should have begun; absent where no time is too late. */
  readonly dueInSeconds?: number;
  /** The planned way, where it is to be kept to. */
  readonly near?: readonly AirPoint[];
  /** How much sooner still a run-in may come and be taken up; 3 s where nothing is said. */
  readonly earlyRunInSeconds?: number;
}

const RUN_IN_HEADING_RADIANS = (25 * Math.PI) / 180;
const RUN_IN_LEFT_RADIANS = (45 * Math.PI) / 180;
/** A pilot who only listens has a longer run-in, so that a roll-out a second late can be steered off. */
const EAR_RUN_IN = 1.8;
/** The expected first smoke is left where it is while the way's end stays within this of it. */
const EXPECTATION_KEPT_SECONDS = 20;
/** A way kept in time ends so much after what was proven begins: the last of it cannot be lengthened. */
const PROVEN_SPARE_SECONDS = 0.6;
/** A run-in that would come this much sooner still is not taken up. */
const EARLY_RUN_IN_SECONDS = 3;

/** Re-solves the way to the next stroke from the present state, and begins the stroke when the gate lets it. */
export function flyToStroke(state: Repositioning, { waitSeconds, dueInSeconds, near, earlyRunInSeconds = EARLY_RUN_IN_SECONDS }: Pace): FlyingState {
  const { flight, strokeIndex } = state;
  const { setup, atSeconds } = flight;
  const start = strokeStart(flight, strokeIndex);
  const speed = predictedAt(flight, atSeconds)!.mean[STATE.airspeed]!;
  const aheadSeconds = state.onRunIn ? flight.hands.turnReactionSeconds : Math.max(turnLeadSeconds(flight), toldLeadSeconds(flight));
  const pose = airPoseOf(predictedAt(flight, atSeconds + aheadSeconds)!, flight);
  const relative = relativeTo(start, pose);
  const toGoMetres = -relative.aheadMetres;
  const headingError = signedRadians(pose.directionRadians - start.directionRadians);
  // Being on the line is no reason to begin before the formation's time.
  const inTime = state.onRunIn || aheadSeconds + toGoMetres / speed > waitSeconds - earlyRunInSeconds;
  if (inTime && isOnRunIn(state, toGoMetres, relative.rightMetres, headingError, speed)) {
    return flyRunIn(state, start, speed, aheadSeconds, toGoMetres, relative.rightMetres, pose.directionRadians);
  }
  const solvedAfter = (seconds: number): Way =>
    solveWay(
      seconds === aheadSeconds ? pose : airPoseOf(predictedAt(flight, atSeconds + seconds)!, flight),
      start,
      {
        ...wayLimits(setup, speed),
        turnShare: flight.hands.turnShare,
        ...(flight.byEar ? { byEar: true, runInSeconds: EAR_RUN_IN * setup.runInSeconds, told: flight.told.at(-1) ?? null } : {}),
        ...(near === undefined ? mindOf(flight) : {}),
        earliestSeconds: Math.max(0, waitSeconds - seconds),
        ...(near === undefined ? {} : { near, provenFromSeconds: waitSeconds - earlyRunInSeconds + PROVEN_SPARE_SECONDS - seconds }),
        ...(dueInSeconds === undefined ? {} : { dueSeconds: dueInSeconds - seconds }),
      },
      state.way,
    );
  // A stroke that goes straight on from the last one has no run-out; every other has.
  // Told by ear, the turn is to begin when the run-out ends; an eye has the turn shown then.
  const runOutSeconds = state.runOutUntilSeconds - atSeconds - (flight.byEar ? turnLeadSeconds(flight) : 0);
  if (runOutSeconds > 0) {
    const way = solvedAfter(runOutSeconds + turnLeadSeconds(flight));
    const after = wayAdvice(state, way, speed, 0);
    return {
      ...state,
      ...(flight.byEar ? { way } : {}),
      flight: { ...flight, advice: { ...runOutAdvice(flight), next: { command: after.command, inSeconds: runOutSeconds } } },
    };
  }

  const way = solvedAfter(aheadSeconds);
  // No way is left that comes in time: nothing is lost by trying the line as it comes, and the gate still says no.
  const lost = dueInSeconds !== undefined && aheadSeconds + way.seconds > dueInSeconds + LOST_SECONDS;
  if (lost && inTime && isOnRunIn(state, toGoMetres, relative.rightMetres, headingError, speed, TRIED_WIDER)) {
    return flyRunIn(state, start, speed, aheadSeconds, toGoMetres, relative.rightMetres, pose.directionRadians);
  }
  const arrivalSeconds = atSeconds + aheadSeconds + way.seconds;
  const expected = flight.expectedDatumAtSeconds;
  if (flight.datumAtSeconds === null && expected !== null && Math.abs(arrivalSeconds - expected) > EXPECTATION_KEPT_SECONDS) {
    return { ...state, way: null, onRunIn: false, flight: { ...flight, expectedDatumAtSeconds: null, advice: wayAdvice(state, way, speed, aheadSeconds) } };
  }
  return { ...state, way, onRunIn: false, flight: { ...flight, advice: wayAdvice(state, way, speed, aheadSeconds) } };
}

/** Until what was told and not yet done would be in effect; 0 where nothing is awaited: the way then begins where that does. */
function toldLeadSeconds(flight: Flight): number {
  const last = flight.told.at(-1);
  if (!flight.byEar || last === undefined || last.fromSeconds + flight.hands.turnReactionSeconds <= flight.atSeconds) return 0;
  return last.fromSeconds - flight.atSeconds + (last.sense === 'either' ? flight.hands.turnReactionSeconds : turnLeadSeconds(flight));
}

/** A turn was just begun when its cue is younger than this: the roll into it is hardly done. */
const JUST_BEGUN_SECONDS = 5;

function mindOf({ setup, commands, atSeconds }: Flight): Pick<WayLimits, 'mind'> {
  if (setup.hanging === undefined) return {};
  const last = commands.at(-1);
  const since = commands.findLast(({ sense }, index) => sense !== commands[index - 1]?.sense);
  return {
    mind: { turnJustBegun: last !== undefined && last.sense !== 'either' && since !== undefined && atSeconds - since.fromSeconds < JUST_BEGUN_SECONDS },
  };
}

/** What ways are solved with, but for the time. */
export function wayLimits(setup: Flight['setup'], trueAirspeedMetresPerSecond: number): Omit<WayLimits, 'earliestSeconds'> {
  const { turningBankRadians, maximumBankRadians, runInSeconds } = setup;
  return { trueAirspeedMetresPerSecond, turningBankRadians, maximumBankRadians, runInSeconds };
}

/** Farther from the line by so much, in every way, a run-in is tried where the way to it is lost. */
const TRIED_WIDER = 1.6;
/** That comes so much after it was due. */
const LOST_SECONDS = 5;

function isOnRunIn(state: Repositioning, toGoMetres: number, rightMetres: number, headingError: number, speed: number, wider = 1): boolean {
  const { setup } = state.flight;
  if (toGoMetres < -2 * speed) return false;
  if (state.onRunIn) return Math.abs(headingError) < RUN_IN_LEFT_RADIANS && Math.abs(rightMetres) < 0.15 * setup.letterHeightMetres;
  const reachMetres = wider * ((state.flight.byEar ? EAR_RUN_IN : 1) * setup.runInSeconds + 1.5) * speed;
  return (
    toGoMetres > 0 &&
    toGoMetres < reachMetres &&
    Math.abs(headingError) < wider * RUN_IN_HEADING_RADIANS &&
    Math.abs(rightMetres) < 15 + wider * 0.15 * toGoMetres
  );
}

/** Straight on, on the heading told last. */
export function runOutAdvice(flight: Flight): Advice {
  const last = flight.commands.at(-1);
  const direction = predictedAt(flight, flight.atSeconds)!.mean[STATE.direction]!;
  return plainAdvice(asked(flight.atSeconds, 'either', last?.sense === 'either' ? last.directionRadians : direction), 'run-out');
}
