import type { Cues } from '../../src/core/guidance/cues.ts';
import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import { initialState, type GuidanceState } from '../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { geodeticFromSite } from '../../src/core/earth/geodetic-from-site.ts';
import type { FlightEvent, FlightFact } from '../../src/core/guidance/flight-event.ts';
import { type FlightWorld, type ShownCue, SimulatedFlight } from './simulated-flight.ts';

export interface DeskFlight {
  readonly simulation: SimulatedFlight;
  readonly finalState: GuidanceState;
  readonly events: readonly FlightEvent[];
  readonly seconds: number;
}

/** The wall clock when a flight at the desk begins. */
export const DESK_START_MILLISECONDS = Date.UTC(2027, 6, 17, 15, 0, 0);

const shownBy = (cues: Cues): ShownCue => ({
  phase: cues.phase,
  turn: cues.turn ?? '',
  headingDegrees: cues.headingMagneticDegrees,
  bankDegrees: cues.bankDegrees,
  smoke: cues.smoke ?? '',
});

/** Flies a setup to its end without a browser: the reducer's cues, shown every tick to the simulated pilot. */
export function flyAtDesk(
  setup: FlightSetup,
  world: FlightWorld,
  options: {
    readonly tickSeconds?: number;
    readonly glanceSeconds?: number;
    readonly longestSeconds?: number;
    readonly watch?: (state: GuidanceState, simulation: SimulatedFlight) => void;
    /** What the pilot touches, looked for at every tick; null for nothing. */
    readonly touch?: (state: GuidanceState) => FlightFact | null;
    /** The receiver stamps its positions by a clock that is so much ahead of the device's; no stamps where it is left out. */
    readonly stampsAheadSeconds?: number;
    /** What the pilot makes of the cues at every tick; exactly what they show where it is left out. */
    readonly seen?: (cues: Cues, simulation: SimulatedFlight) => ShownCue;
  } = {},
): DeskFlight {
  const { tickSeconds = 0.1, glanceSeconds = tickSeconds, longestSeconds = 3600, stampsAheadSeconds: stampsAhead } = options;
  let glanceAtSeconds = 0;
  const simulation = new SimulatedFlight(world);
  const events: FlightEvent[] = [];
  let state = initialState;
  const take = (fact: FlightFact): void => {
    const event: FlightEvent = { ...fact, atSeconds: simulation.atSeconds, wallMilliseconds: DESK_START_MILLISECONDS + simulation.atSeconds * 1000 };
    events.push(event);
    state = reduce(state, event);
  };
  take({ kind: 'flightStarted', setup });
  while (simulation.atSeconds < longestSeconds) {
    for (const fix of simulation.fly(tickSeconds)) {
      const point = geodeticFromSite(fix, setup.layerHeightMetres, setup.site);
      take({
        kind: 'fixReceived',
        fix: {
          ...point,
          accuracyMetres: 2.45 * world.fixNoiseMetres,
          altitudeMetres: null,
          groundSpeedMetresPerSecond: null,
          trackDegrees: null,
          stampMilliseconds: stampsAhead === undefined ? null : DESK_START_MILLISECONDS + (fix.measuredAtSeconds + stampsAhead) * 1000,
        },
      });
    }
    take({ kind: 'clockAdvanced' });
    const cues = cuesFrom(state);
    if (simulation.atSeconds >= glanceAtSeconds - 1e-9) {
      glanceAtSeconds += glanceSeconds;
      simulation.show(options.seen?.(cues, simulation) ?? shownBy(cues));
    }
    options.watch?.(state, simulation);
    const touched = options.touch?.(state) ?? null;
    if (touched !== null) take(touched);
    if (cues.phase === 'finished' && !simulation.smokeOn) break;
  }
  return { simulation, finalState: state, events, seconds: simulation.atSeconds };
}
