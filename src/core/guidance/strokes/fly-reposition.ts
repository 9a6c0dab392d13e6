import { plainAdvice } from '../ways/way-advice.ts';
import { asked } from '../../tracking/turn-command.ts';
import { STATE } from '../../tracking/estimate.ts';
import { REASONS } from '../cues.ts';
import { flyFormation } from '../formation/fly-formation.ts';
import { flyToStroke, wayLimits } from './fly-to-stroke.ts';
import { hungAgain } from '../hanging/hang-again.ts';
import type { Flight, FlyingState } from '../guidance-state.ts';
import { leftTimetable, lostFromCircle } from '../formation/left-timetable.ts';
import { agedDoubtSeconds } from '../../tracking/fix-time.ts';
import { airPoseOf, fixAgeSeconds, isTrusted, predictedAt } from '../present.ts';
import { solveWay } from '../ways/solve-way.ts';
import { strokeStart } from './stroke-start.ts';
import { turnLeadSeconds } from '../ways/turn-lead.ts';
import { wingsLevel } from '../ways/wings-level.ts';
import { flyWindCircle, windCircleBegun, windCircleDue } from '../wind-circle.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** Re-solves the way to the next stroke from the present state, and begins the stroke when the gate lets it. */
export function flyReposition(state: Repositioning): FlyingState {
  const { flight, strokeIndex } = state;
  if (!isTrusted(flight)) return { ...state, flight: { ...wingsLevel(withoutPlace(flight)), advice: null } };
  const inFormation = flyFormation(state);
  if (inFormation !== null) return inFormation;
  const straight = straightFirst(state);
  if (straight !== null) return straight;
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
  return flyToStroke(state, { waitSeconds: secondsToWait(flight, strokeIndex) });
}

/** Straight for so long beyond the doubt, so that the turn after it tells what the doubt is. */
const STRAIGHT_SECONDS = 5;

/** Stamps that look ordinary are looked at once, before the first turn. */
const UNCHECKED_SECONDS = 2;
/** A turn so long ago leaves no trace any more. */
const TRACE_SECONDS = 12;

/** Before a turn that is to show whether fixes come late: straight on, so that it is seen to begin. */
function straightFirst(state: Repositioning): Repositioning | null {
  const { flight } = state;
  const { stampTrust, turnCue } = flight;
  const unchecked = turnCue === null && stampTrust.anchor !== undefined && stampTrust.turns === undefined;
  const doubtSeconds = agedDoubtSeconds(stampTrust) ?? (unchecked ? UNCHECKED_SECONDS : null);
  if (flight.setup.hanging === undefined || doubtSeconds === null) return null;
  const shows = turnCue !== null && turnCue.straightSeconds >= doubtSeconds + STRAIGHT_SECONDS - 1;
  if (shows && flight.atSeconds - turnCue.fromSeconds < doubtSeconds + TRACE_SECONDS) return null;
  const last = flight.commands.at(-1);
  if (flight.straightSinceSeconds !== null && flight.atSeconds - flight.straightSinceSeconds > doubtSeconds + STRAIGHT_SECONDS) return null;
  // A turn is left where it is, not where it was to end.
  const directionRadians =
    last?.sense === 'either' ? last.directionRadians : predictedAt(flight, flight.atSeconds + turnLeadSeconds(flight))!.mean[STATE.direction]!;
  return {
    ...state,
    flight: {
      ...flight,
      advice: plainAdvice(asked(flight.atSeconds, 'either', directionRadians), 'straight on: timing the fixes'),
    },
  };
}

/** A ship of a formation without a position for so long goes down to its own height, wherever it is. */
const LOST_SECONDS = 5;

function withoutPlace(flight: Flight): Flight {
  const age = fixAgeSeconds(flight);
  if (flight.formation === null || age === null || age < LOST_SECONDS) return flight;
  const left =
    flight.formation.part === 'timetable' || flight.formation.part === 'leaving' ? leftTimetable(flight, REASONS.lost) : lostFromCircle(flight, REASONS.lost);
  // Where to break away to cannot be said without a place.
  return left.formation === null ? left : { ...left, formation: { ...left.formation, breakAway: null } };
}

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

/** With a timed datum a stroke may begin this much before its planned time. */
const EARLY_ALLOWED_SECONDS = 2;

/** Until the next stroke may begin, where a timed datum says when; 0 where any time will do. */
function secondsToWait({ setup, datumAtSeconds, atSeconds }: Flight, strokeIndex: number): number {
  if (setup.datum.kind !== 'at-time' || datumAtSeconds === null) return 0;
  return Math.max(0, datumAtSeconds + setup.strokes[strokeIndex]!.plannedStartSeconds - EARLY_ALLOWED_SECONDS - atSeconds);
}
