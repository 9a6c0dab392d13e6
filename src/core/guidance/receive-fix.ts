import { siteFromGeodetic } from '../earth/site-frame.ts';
import { averagedWind } from './hanging/average-wind.ts';
import { STATE } from '../tracking/estimate.ts';
import type { Fix } from '../tracking/fix.ts';
import { fixTime } from '../tracking/fix-time.ts';
import { propagate } from '../tracking/propagate.ts';
import { type Sighting, tracked } from '../tracking/tracker.ts';
import { directionFromBearing, radiansFromDegrees } from '../units/angle.ts';
import type { Flight, FlyingState } from './guidance-state.ts';
import { handsLearned } from './learn-hands.ts';
import { motionOf } from './present.ts';

/** A forecast's wind is wrong by this much in each component, one standard deviation: 13 kt of vector error. */
const FORECAST_SIGMA_METRES_PER_SECOND = 5;

/** Takes a fix through the gate and the filter; while the smoke is on, what it says of the past drift waits. */
export function receiveFix(state: FlyingState, fix: Fix): FlyingState {
  const { flight } = state;
  const { setup } = flight;
  const sighting = sightingFrom(fix, flight);
  if (sighting === null) return state;
  const step = tracked(flight.tracker, sighting.sighting, motionOf(flight), {
    wind: setup.forecastWind,
    windSigmaMetresPerSecond: FORECAST_SIGMA_METRES_PER_SECOND,
    airspeedMetresPerSecond: setup.trueAirspeedMetresPerSecond,
  });
  const used = step.verdict === 'used';
  const next: Flight = {
    ...flight,
    tracker: step.tracker,
    windAverage: used ? averagedWind(flight, step.tracker.estimate!) : flight.windAverage,
    stampTrust: sighting.trust,
    hands: used && flight.setup.hanging !== undefined ? handsLearned(flight, step.tracker.estimate!) : flight.hands,
    lastVerdict: step.verdict,
    lastUsedAtSeconds: used ? flight.atSeconds : flight.lastUsedAtSeconds,
    fixesLost: used ? null : flight.fixesLost,
    clockInDoubt: used ? false : flight.clockInDoubt,
  };
  if (state.phase !== 'onStroke' || !used || flight.tracker.estimate === null) return { ...state, flight: next };
  const believed = propagate(flight.tracker.estimate, step.tracker.estimate!.atSeconds, motionOf(flight), false);
  const found = step.tracker.estimate!;
  return {
    ...state,
    flight: next,
    deferredEastMetres: state.deferredEastMetres + found.mean[STATE.driftEast]! - believed.mean[STATE.driftEast]!,
    deferredNorthMetres: state.deferredNorthMetres + found.mean[STATE.driftNorth]! - believed.mean[STATE.driftNorth]!,
  };
}

function sightingFrom(fix: Fix, flight: Flight): { sighting: Sighting; trust: Flight['stampTrust'] } | null {
  const { latitudeDegrees, longitudeDegrees, accuracyMetres, groundSpeedMetresPerSecond, trackDegrees } = fix;
  if (!(Math.abs(latitudeDegrees) <= 90) || !Number.isFinite(longitudeDegrees)) return null;
  const { eastMetres, northMetres } = siteFromGeodetic({ latitudeDegrees, longitudeDegrees }, flight.setup.layerHeightMetres, flight.setup.site);
  const time = fixTime(flight.atSeconds, flight.wallMilliseconds, fix.stampMilliseconds, flight.stampTrust);
  const moving =
    groundSpeedMetresPerSecond !== null &&
    trackDegrees !== null &&
    Number.isFinite(trackDegrees) &&
    groundSpeedMetresPerSecond > 15 &&
    groundSpeedMetresPerSecond < 400;
  const direction = moving ? directionFromBearing(radiansFromDegrees(trackDegrees)) : 0;
  return {
    trust: time.trust,
    sighting: {
      eastMetres,
      northMetres,
      measuredAtSeconds: time.measuredAtSeconds,
      accuracyMetres,
      velocity: moving
        ? {
            eastMetresPerSecond: groundSpeedMetresPerSecond * Math.cos(direction),
            northMetresPerSecond: groundSpeedMetresPerSecond * Math.sin(direction),
          }
        : null,
    },
  };
}
