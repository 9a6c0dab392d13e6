import { STATE } from '../../tracking/estimate.ts';
import type { FlyingState } from '../guidance-state.ts';
import { airPoseOf, predictedAt } from '../present.ts';
import { solveWay } from '../ways/solve-way.ts';
import { turnLeadSeconds } from '../ways/turn-lead.ts';
import { circleCue } from './wait-on-circle.ts';
import { wayAdvice } from '../ways/way-advice.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** Nearer than this to the leaving pose the circle is taken up. */
const TAKEN_UP_SECONDS = 2.5;
/** So little is left of the last circle: the way to the stroke begins. */
const LEFT_RADIANS = 0.12;

/**
 * A ship of a formation comes to its own waiting circle and stays on it until its time, so that the ships keep as far
 * apart before the first smoke as was planned. Null when it has no circle, when its first stroke has begun, or when it
 * is time to leave, or too late for a circle.
 */
export function flyWaitingCircle(state: Repositioning): Repositioning | null {
  const { flight, strokeIndex, onWaitingCircle } = state;
  const { setup, atSeconds, datumAtSeconds } = flight;
  const circle = setup.waitingCircle;
  if (circle === undefined || datumAtSeconds === null || strokeIndex > 0 || flight.smokeCuedAtSeconds !== null) return null;
  const speed = predictedAt(flight, atSeconds)!.mean[STATE.airspeed]!;
  const aheadSeconds = turnLeadSeconds(flight);
  const secondsLeft = datumAtSeconds + circle.leaveSeconds - atSeconds - aheadSeconds;
  if (secondsLeft <= 0) return null;
  const pose = airPoseOf(predictedAt(flight, atSeconds + aheadSeconds)!, flight);
  const smokeInSeconds = datumAtSeconds + setup.strokes[0]!.plannedStartSeconds - atSeconds - setup.valveOnSeconds;
  const limits = { ...setup, trueAirspeedMetresPerSecond: speed };
  if (!onWaitingCircle) {
    const way = solveWay(pose, circle.leave, { ...limits, runInSeconds: 0, earliestSeconds: 0 }, state.way);
    if (way.seconds > secondsLeft) return null;
    if (way.seconds > TAKEN_UP_SECONDS) {
      const advice = { ...wayAdvice(state, way, speed, aheadSeconds), smokeInSeconds, because: 'to the waiting circle' };
      return { ...state, way, onRunIn: false, flight: { ...flight, advice } };
    }
  }
  const { toGoRadians, ...cue } = circleCue(circle, pose, secondsLeft, limits);
  if (toGoRadians < LEFT_RADIANS) return null;
  const command = { fromSeconds: atSeconds, sense: circle.turn, ...cue, startsManoeuvre: false };
  return {
    ...state,
    way: null,
    onRunIn: false,
    onWaitingCircle: true,
    flight: { ...flight, advice: { command, smokeInSeconds, crossTrackMetres: null, because: 'waiting for the time', next: null } },
  };
}
