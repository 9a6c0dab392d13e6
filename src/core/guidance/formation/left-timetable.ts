import { STATE } from '../../tracking/estimate.ts';
import { breakAwayFrom } from './break-away.ts';
import type { FormationProgress } from './formation-progress.ts';
import type { Flight, FlyingState } from '../guidance-state.ts';
import { towardsNext } from '../strokes/next-stroke.ts';
import { airPoseOf, predictedAt } from '../present.ts';

/**
 * A flight whose ship has left the timetable: out of the others' ways, down to its own height, and back to its circle.
 * On its circle it may stay there. A stroke broken off is flown again whole, since the way to its start is what was
 * proven. A ship alone flies on as it was.
 *
 * @param why in words for the pilot
 */
export function leftTimetable(flight: Flight, why: string): Flight {
  const { formation, setup, datumAtSeconds, atSeconds } = flight;
  if (formation === null || setup.formation === undefined) return flight;
  const progress = flight.progress.map((one) => (one.status === 'to-fly' ? ({ status: 'to-fly', smokedMetres: 0 } as const) : one));
  const circling: Partial<FormationProgress> = { left: why, window: null };
  if (formation.part === 'circling') return { ...flight, progress, formation: { ...formation, ...circling } };
  const estimate = predictedAt(flight, atSeconds + flight.reactionSeconds);
  const amongOthers = formation.part === 'timetable' || formation.part === 'leaving';
  const breakAway =
    !amongOthers || estimate === null || datumAtSeconds === null
      ? formation.breakAway
      : breakAwayFrom(airPoseOf(estimate, flight), setup.formation.others, atSeconds - datumAtSeconds, atSeconds, {
          trueAirspeedMetresPerSecond: estimate.mean[STATE.airspeed]!,
          turningBankRadians: setup.turningBankRadians,
          goesUp: setup.formation.ownHeightMetres > setup.layerHeightMetres,
        });
  return { ...flight, advice: null, progress, formation: { ...formation, ...circling, ...OFF_CIRCLE, breakAway } };
}

/** A ship that flew on without a position: wherever it is, it is not on its circle. */
export function lostFromCircle(flight: Flight, why: string): Flight {
  const { formation } = flight;
  if (formation === null) return flight;
  return { ...flight, formation: { ...formation, ...OFF_CIRCLE, left: why, window: null } };
}

const OFF_CIRCLE = { part: 'joining', toLayerSinceSeconds: null, turnedRadians: 0, lastBearingRadians: null } as const;

/** The same for the state it is part of. */
export function offTimetable(state: FlyingState, why: string): FlyingState {
  if (state.flight.formation === null) return state;
  const flight = leftTimetable(state.flight, why);
  // Nobody goes on with a stroke that a dark screen has interrupted.
  if (state.phase === 'onStroke') return towardsNext({ ...flight, smokeCuedAtSeconds: flight.atSeconds }, -Infinity);
  return state.phase === 'repositioning' ? { ...state, flight, way: null, onRunIn: false, goAround: null } : { ...state, flight };
}
