import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { Cues } from '../../src/core/guidance/cues.ts';
import type { FlightEvent, FlightFact } from '../../src/core/guidance/flight-event.ts';
import type { FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import { type GuidanceState, initialState } from '../../src/core/guidance/guidance-state.ts';
import { viewFrom } from '../../src/core/guidance/flight-view-from.ts';
import { predictedAt } from '../../src/core/guidance/present.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { STATE } from '../../src/core/tracking/estimate.ts';
import { type DevicePositionReport, fixFromPosition } from '../../src/sensors/fix-from-position.ts';
import { placeOnEarth } from '../flight/place-on-earth.ts';
import { SimulatedFlight, type FlightWorld } from '../flight/simulated-flight.ts';

/** A report on its way from the receiver to the page. */
export interface Delivery {
  readonly report: DevicePositionReport;
  /** 0 for at once. */
  readonly afterSeconds: number;
}

/** What goes wrong on the way; anything left out goes well. */
export interface FlightFaults {
  /** The deliveries that a true report becomes; none to lose it. */
  readonly deliver?: (report: DevicePositionReport, atSeconds: number) => readonly Delivery[];
  /** The page does not run for so long from then on; `sleep` also stops the monotonic clock. */
  readonly stops?: { readonly atSeconds: number; readonly seconds: number; readonly kind: 'stall' | 'sleep' };
  /** The wall clock is set on by so much. */
  readonly clockSet?: { readonly atSeconds: number; readonly bySeconds: number };
  /** How far the wall clock is off besides, at a time. */
  readonly clockOff?: (atSeconds: number) => number;
  /** Whether reports carry the device's clock instead of a receiver's own. */
  readonly deviceStamps?: boolean;
  /** What the pilot touches after a look, who knows the truth. */
  readonly touch?: (state: GuidanceState, atSeconds: number) => FlightFact | null;
}

/** One look at the screen, beside the truth. */
export interface Look {
  /** Of the truth, which never stops. */
  readonly atSeconds: number;
  readonly cues: Cues;
  /** How far the believed position is from the true one; null while none is believed. */
  readonly offMetres: number | null;
  /** How far the word's frame has moved against the air since the first smoke; null off smoke. */
  readonly frameMetres: number | null;
}

export interface FaultyFlight {
  readonly looks: readonly Look[];
  readonly finished: boolean;
  readonly simulation: SimulatedFlight;
  /** Every fact by its event, as it would lie in the log. */
  readonly events: readonly FlightEvent[];
}

const TICK_SECONDS = 0.1;
const START_MILLISECONDS = Date.UTC(2027, 6, 17, 15, 0, 0);
const AFTER_START_SECONDS = 10_000;

/**
 * Flies a setup by its cues while faults are injected between the receiver and the reducer: reports pass as the
 * browser would hand them over, through the app's own reading of them.
 */
export function flyWithFaults(setup: FlightSetup, world: FlightWorld, faults: FlightFaults, longestSeconds = 2400): FaultyFlight {
  const simulation = new SimulatedFlight(world);
  const deliver = faults.deliver ?? ((report) => [{ report, afterSeconds: 0 }]);
  const underWay: { readonly atSeconds: number; readonly report: DevicePositionReport }[] = [];
  const looks: Look[] = [];
  const events: FlightEvent[] = [];
  let sleptSeconds = 0;
  let stopped = false;
  let state: GuidanceState = initialState;
  const wallOff = (atSeconds: number): number =>
    (faults.clockSet !== undefined && atSeconds >= faults.clockSet.atSeconds ? faults.clockSet.bySeconds : 0) + (faults.clockOff?.(atSeconds) ?? 0);
  let frame: { readonly east: number; readonly north: number } | null = null;
  const take = (fact: FlightFact): void => {
    const { atSeconds } = simulation;
    const event: FlightEvent = {
      ...fact,
      atSeconds: AFTER_START_SECONDS + atSeconds - sleptSeconds,
      wallMilliseconds: START_MILLISECONDS + (atSeconds + wallOff(atSeconds)) * 1000,
    };
    events.push(event);
    state = reduce(state, event);
  };
  const flyOn = (seconds: number): void => {
    for (const { eastMetres, northMetres, measuredAtSeconds } of simulation.fly(seconds)) {
      const { latitudeDegrees, longitudeDegrees } = placeOnEarth(eastMetres, northMetres, setup.layerHeightMetres, setup.site);
      const coords = {
        latitude: latitudeDegrees,
        longitude: longitudeDegrees,
        accuracy: 2.45 * world.fixNoiseMetres,
        altitude: null,
        speed: null,
        heading: null,
      };
      const report = { coords, timestamp: START_MILLISECONDS + (measuredAtSeconds + (faults.deviceStamps === true ? wallOff(measuredAtSeconds) : 0)) * 1000 };
      for (const each of deliver(report, simulation.atSeconds)) underWay.push({ atSeconds: simulation.atSeconds + each.afterSeconds, report: each.report });
    }
  };
  take({ kind: 'flightStarted', setup });
  while (simulation.atSeconds < longestSeconds) {
    flyOn(TICK_SECONDS);
    if (faults.stops !== undefined && !stopped && simulation.atSeconds >= faults.stops.atSeconds) {
      stopped = true;
      flyOn(faults.stops.seconds);
      if (faults.stops.kind === 'sleep') sleptSeconds = faults.stops.seconds;
      // Nobody measures for a sleeping page; a stalled one finds the reports waiting.
      if (faults.stops.kind === 'sleep') underWay.length = 0;
    }
    underWay.sort((one, other) => one.atSeconds - other.atSeconds);
    while (underWay.length > 0 && underWay[0]!.atSeconds <= simulation.atSeconds + 1e-9) {
      const fix = fixFromPosition(underWay.shift()!.report);
      if (fix !== null) take({ kind: 'fixReceived', fix });
    }
    take({ kind: 'clockAdvanced' });
    const cues = cuesFrom(state);
    simulation.show({
      phase: cues.phase,
      turn: cues.turn ?? '',
      headingDegrees: cues.headingMagneticDegrees,
      bankDegrees: cues.bankDegrees,
      smoke: cues.smoke ?? '',
    });
    const own = cues.smoke === 'on' ? (viewFrom(state)?.own ?? null) : null;
    const now = own === null ? null : { east: own.airEastMetres - simulation.airEastMetres, north: own.airNorthMetres - simulation.airNorthMetres };
    if (frame === null && now !== null) frame = now;
    looks.push({
      atSeconds: simulation.atSeconds,
      cues,
      offMetres: offMetres(state, simulation),
      frameMetres: now === null || frame === null ? null : Math.hypot(now.east - frame.east, now.north - frame.north),
    });
    const touched = faults.touch?.(state, simulation.atSeconds) ?? null;
    if (touched !== null) take(touched);
    if (cues.phase === 'finished' && !simulation.smokeOn) return { looks, finished: true, simulation, events };
  }
  return { looks, finished: false, simulation, events };
}

function offMetres(state: GuidanceState, { airEastMetres, airNorthMetres, driftEastMetres, driftNorthMetres }: SimulatedFlight): number | null {
  if (state.phase === 'idle') return null;
  const believed = predictedAt(state.flight, state.flight.atSeconds);
  if (believed === null) return null;
  return Math.hypot(believed.mean[STATE.east]! - airEastMetres - driftEastMetres, believed.mean[STATE.north]! - airNorthMetres - driftNorthMetres);
}
