import { DESK_START_MILLISECONDS, flyAtDesk } from './fly-at-desk.ts';
import { ordinaryWorld } from './ordinary-world.ts';
import type { Puff } from './simulated-flight.ts';
import { wordSetup } from './word-setup.ts';

/** What ships of one formation truly did. */
export interface FormationFlight {
  readonly trails: readonly (readonly Puff[])[];
  readonly finished: boolean;
  /** Nearest any two truly came from a minute before the datum on, until the first of them was done. */
  readonly nearestMetres: number;
  readonly seconds: number;
}

const DATUM_SECONDS = 240;
/** Each ship's clock is off by so much: a hack called on the radio. */
const CLOCK_ERRORS_SECONDS = [0, 1.7, -1.9];

/** Three ships, each by its own cues and receiver in the same air, without a link, started on a time hack. */
export function flyFormation(text: string, seed: number, forecastErrorMetresPerSecond: number, ships = 3): FormationFlight {
  const tracks: Map<number, { readonly east: number; readonly north: number; readonly done: boolean }>[] = [];
  const trails: (readonly Puff[])[] = [];
  let finished = true;
  let seconds = 0;
  for (let shipIndex = 0; shipIndex < ships; shipIndex += 1) {
    const datum = { kind: 'at-time', wallMilliseconds: DESK_START_MILLISECONDS + (DATUM_SECONDS + CLOCK_ERRORS_SECONDS[shipIndex % 3]!) * 1000 } as const;
    const { plan, setup } = wordSetup(text, { datum }, ships, shipIndex);
    const { joinUp } = plan.ships[shipIndex]!;
    const first = setup.strokes[0]!.path.start;
    // Before the datum ships wait about where the plan's circles are, carried back by the wind of four minutes.
    const away = joinUp?.holdCentre ?? { airEastMetres: first.airEastMetres, airNorthMetres: first.airNorthMetres };
    const base = ordinaryWorld(seed, forecastErrorMetresPerSecond);
    const world = {
      ...base,
      seed: seed * 10 + shipIndex,
      windSeed: seed,
      startEastMetres: away.airEastMetres - DATUM_SECONDS * base.windEastMetresPerSecond,
      startNorthMetres: away.airNorthMetres - DATUM_SECONDS * base.windNorthMetresPerSecond,
      startHeadingDegrees: 90,
    };
    const track = new Map<number, { east: number; north: number; done: boolean }>();
    const flight = flyAtDesk(setup, world, {
      watch: (state, simulation) =>
        track.set(Math.round(simulation.atSeconds * 10), {
          east: simulation.airEastMetres,
          north: simulation.airNorthMetres,
          done: state.phase === 'finished',
        }),
    });
    tracks.push(track);
    // All ships start in air that has drifted alike, so their air-mass coordinates are one.
    trails.push(...flight.simulation.trails);
    finished &&= flight.finalState.phase === 'finished';
    seconds = Math.max(seconds, flight.seconds - DATUM_SECONDS);
  }
  let nearestMetres = Infinity;
  for (const [one, track] of tracks.entries()) {
    for (const other of tracks.slice(one + 1)) {
      for (const [tenths, place] of track) {
        const there = other.get(tenths);
        if (there === undefined || tenths < (DATUM_SECONDS - 60) * 10 || place.done || there.done) continue;
        nearestMetres = Math.min(nearestMetres, Math.hypot(place.east - there.east, place.north - there.north));
      }
    }
  }
  return { trails, finished, nearestMetres, seconds };
}
