import { windFromVector } from '../earth/wind-vector.ts';
import { STATE } from '../tracking/estimate.ts';
import type { TurnCommand } from '../tracking/turn-command.ts';
import { behindPlanSeconds } from './behind-plan.ts';
import { bearingFromDirection, degreesFromRadians, positiveDegrees } from '../units/angle.ts';
import { feetFromMetres, knotsFromMetresPerSecond } from '../units/quantity.ts';
import { type CuePhase, type Cues, REASONS } from './cues.ts';
import { isEstablished } from './formation/formation-progress.ts';
import { isAsked } from './clock.ts';
import type { Advice, Flight, FlyingState, GuidanceState } from './guidance-state.ts';
import { tooLateWords } from './gate.ts';
import { isHeld } from './strokes/hold-stroke.ts';
import { BLANK_AGE_SECONDS, fixAgeSeconds, fixHealth, isTrusted } from './present.ts';

const NOTHING: Cues = {
  phase: 'standby',
  turn: null,
  headingTrueDegrees: null,
  headingMagneticDegrees: null,
  bankDegrees: null,
  smoke: 'off',
  smokeInSeconds: null,
  crossTrackMetres: null,
  strokeNumber: 0,
  strokeCount: 0,
  character: null,
  fixAgeSeconds: null,
  fixHealth: 'lost',
  windFromDegrees: null,
  windKnots: null,
  oilKilograms: 0,
  shipName: '',
  part: null,
  heightFeet: null,
  established: null,
  lateSeconds: null,
  held: false,
  because: 'no flight',
  next: null,
};

/** The cues that follow from a state: pure, and nothing is shown that the state does not trust. */
export function cuesFrom(state: GuidanceState): Cues {
  if (state.phase === 'idle') return NOTHING;
  const { flight } = state;
  const { setup } = flight;
  // Knocked off: the stroke that would have been written.
  const strokeIndex =
    state.phase === 'finished' ? (flight.sequence.find((index) => flight.progress[index]?.status === 'to-fly') ?? setup.strokes.length - 1) : state.strokeIndex;
  const base: Cues = {
    ...NOTHING,
    strokeNumber: strokeIndex + 1,
    strokeCount: setup.strokes.length,
    character: setup.strokes[strokeIndex]?.character ?? null,
    fixAgeSeconds: fixAgeSeconds(flight),
    fixHealth: state.phase === 'onStroke' && isHeld(state) ? 'ageing' : fixHealth(flight),
    oilKilograms: Math.max(0, setup.oilKilograms - flight.smokedSeconds * setup.oilKilogramsPerSecond),
    shipName: setup.shipName,
    ...windOf(flight),
    ...formationOf(state),
  };
  if (state.phase === 'finished') {
    return { ...base, phase: 'finished', ...(flight.advice === null ? {} : steering(flight.advice, flight)), because: ENDS[state.how] };
  }
  const held = state.phase === 'onStroke' && !isTrusted(flight) && isHeld(state);
  if (!isTrusted(flight) && !held) {
    // Off is certain here, since every stroke is broken off when fixes are lost; what the hand does is the pilot's.
    return { ...base, phase: flight.tracker.estimate === null ? 'standby' : 'no-cue', smoke: 'off', because: whyBlank(flight) };
  }
  if (state.phase === 'holding') return { ...base, phase: 'hold', because: 'hold: stay clear, smoke off' };
  const { advice } = flight;
  if (advice === null) return { ...base, phase: 'no-cue', because: 'solving' };
  return {
    ...base,
    phase: phaseOf(state),
    ...steering(advice, flight),
    smoke: state.phase === 'onStroke' ? 'on' : 'off',
    smokeInSeconds: advice.smokeInSeconds === null ? null : Math.round(advice.smokeInSeconds * 10) / 10,
    held,
    crossTrackMetres: advice.crossTrackMetres === null || held ? null : Math.round(advice.crossTrackMetres),
    because: held ? 'held: no fix, hold what you fly' : advice.because,
    next:
      advice.next === null
        ? null
        : {
            turn: advice.next.command.sense === 'either' ? 'straight' : advice.next.command.sense,
            headingMagneticDegrees: magnetic(advice.next.command, flight),
            bankDegrees: Math.round(degreesFromRadians(advice.next.command.bankRadians)),
            inSeconds: advice.next.inSeconds,
          },
  };
}

const ENDS = { complete: 'all strokes flown', 'knocked-off': REASONS.knockedOff, 'given-up': REASONS.givenUp } as const;

function steering({ command }: Advice, flight: Flight): Pick<Cues, 'turn' | 'headingTrueDegrees' | 'headingMagneticDegrees' | 'bankDegrees'> {
  return {
    turn: command.sense === 'either' ? 'straight' : command.sense,
    headingTrueDegrees: headingDegrees(command, flight),
    headingMagneticDegrees: magnetic(command, flight),
    bankDegrees: Math.round(degreesFromRadians(command.bankRadians)),
  };
}

/** What a ship of a formation is told beside its turns; the height holds without a position too. */
function formationOf(state: FlyingState): Pick<Cues, 'part' | 'heightFeet' | 'established' | 'lateSeconds'> {
  const { formation, setup } = state.flight;
  if (formation === null || setup.formation === undefined) {
    // Before the wind is known it is not known where the first smoke will be.
    const timed = setup.datum.kind === 'at-time' && isTrusted(state.flight) && state.flight.windAverage !== null && state.phase !== 'finished';
    return { part: null, heightFeet: null, established: null, lateSeconds: timed ? Math.round(behindPlanSeconds(state)) : null };
  }
  const atLayer =
    state.phase === 'onStroke' ||
    (state.phase === 'repositioning' && (formation.part === 'timetable' || formation.part === 'leaving' || formation.toLayerSinceSeconds !== null));
  const waits = formation.part === 'joining' || formation.part === 'circling';
  const known = isTrusted(state.flight) && state.phase !== 'finished';
  return {
    part: formation.part,
    heightFeet: Math.round(feetFromMetres(atLayer ? setup.layerHeightMetres : setup.formation.ownHeightMetres)),
    established: known ? !waits || isEstablished(formation) : null,
    lateSeconds: known && formation.lateSeconds !== null ? Math.round(formation.lateSeconds) : null,
  };
}

function phaseOf(state: Extract<FlyingState, { phase: 'repositioning' | 'onStroke' }>): CuePhase {
  if (state.phase === 'onStroke') return 'stroke';
  if (state.flight.formation?.held === true) return 'hold';
  if (state.onRunIn) return 'run-in';
  return state.goAround === null ? 'reposition' : 'go-around';
}

/** What the pilot is to read off the gyro for a direction, its error as learned taken off. */
function shownBearingDegrees({ directionRadians }: TurnCommand, { hands }: Flight): number {
  return degreesFromRadians(bearingFromDirection(directionRadians - hands.headingOffRadians));
}

function headingDegrees(command: TurnCommand, flight: Flight): number {
  return Math.round(shownBearingDegrees(command, flight)) % 360;
}

function magnetic(command: TurnCommand, flight: Flight): number {
  return Math.round(positiveDegrees(shownBearingDegrees(command, flight) - flight.setup.variationDegrees)) % 360;
}

function windOf({ tracker: { estimate } }: Flight): Pick<Cues, 'windFromDegrees' | 'windKnots'> {
  if (estimate === null) return { windFromDegrees: null, windKnots: null };
  const { fromRadians, speedMetresPerSecond } = windFromVector({
    eastMetresPerSecond: estimate.mean[STATE.windEast]!,
    northMetresPerSecond: estimate.mean[STATE.windNorth]!,
  });
  return { windFromDegrees: Math.round(degreesFromRadians(fromRadians)) % 360, windKnots: Math.round(knotsFromMetresPerSecond(speedMetresPerSecond)) };
}

function whyBlank(flight: Flight): string {
  const { lateSeconds } = flight.stampTrust;
  if (flight.fixesLost === 'permission') return 'location is not allowed: allow it in the browser';
  if (flight.fixesLost === 'hidden') return 'page was hidden: waiting for a fresh fix';
  if (flight.clockQuestion !== null) {
    const by = `${Math.abs(flight.clockQuestion.gapSeconds).toFixed(flight.clockQuestion.gapSeconds < 10 ? 1 : 0)} s`;
    return isAsked(flight) ? `clock jumped ${by}: was the screen off, or was the clock set?` : `clock jumped ${by}: waiting for a fresh fix`;
  }
  if (flight.clockInDoubt) return 'clock jumped: waiting for a fresh fix';
  switch (flight.lastVerdict) {
    case 'imprecise':
      return 'position is only approximate: precise location is needed';
    case 'jump':
      return 'position jumped: waiting for five fixes that agree';
    case 'frozen':
      return 'position does not move: receiver frozen?';
    case 'too-slow':
      return 'not at flying speed';
    default:
      if (flight.tracker.last === null) return 'waiting for the first fix';
      return lateSeconds === undefined || flight.atSeconds - flight.lastUsedAtSeconds > BLANK_AGE_SECONDS ? 'no fix' : tooLateWords(lateSeconds);
  }
}
