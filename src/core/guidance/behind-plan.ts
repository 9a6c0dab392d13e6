import { airPathLengthMetres } from '../paths/air-path.ts';
import { STATE } from '../tracking/estimate.ts';
import type { FlyingState } from './guidance-state.ts';

/**
 * Seconds by which a ship alone is behind its plan as it flies now, at the stroke that is flown or comes next; 0 when it is in time, and
 * before a first smoke that itself is the datum. What is left still takes its time: so much later the last smoke ends.
 */
export function behindPlanSeconds(state: FlyingState): number {
  const { flight } = state;
  if (flight.datumAtSeconds === null || state.phase === 'finished') return 0;
  const stroke = flight.setup.strokes[state.strokeIndex];
  if (stroke === undefined) return 0;
  const speed = flight.tracker.estimate?.mean[STATE.airspeed] ?? flight.setup.trueAirspeedMetresPerSecond;
  const begun = state.phase === 'onStroke' ? Math.min(state.alongMetres, airPathLengthMetres(stroke.path)) / speed : 0;
  const wait = state.phase === 'repositioning' ? (state.way?.seconds ?? flight.advice?.smokeInSeconds ?? 0) : 0;
  return Math.max(0, flight.atSeconds + wait - begun - flight.datumAtSeconds - stroke.plannedStartSeconds);
}
