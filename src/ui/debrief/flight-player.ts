import { computed, type ReadonlySignal } from '@preact/signals';
import { createPlayer, FLIGHT_RATES, type Player } from '../../app/player.ts';

/** The stretch of time a flight can be played over, UTC. */
export interface FlightSpan {
  readonly fromMilliseconds: number;
  readonly toMilliseconds: number;
}

/** The moment of the flight that all pictures show; the player's seconds are UTC. */
export interface FlightPlayer extends Player {
  /** NaN while there is nothing to show. */
  readonly atMilliseconds: ReadonlySignal<number>;
  seekMilliseconds(atMilliseconds: number): void;
}

/** A player over a flight; `span` is null while nothing is open. */
export function createFlightPlayer(span: () => FlightSpan | null, reducedMotion: () => boolean): FlightPlayer {
  const player = createPlayer({
    span: () => {
      const open = span();
      return open === null ? null : { fromSeconds: open.fromMilliseconds / 1000, toSeconds: open.toMilliseconds / 1000 };
    },
    rates: FLIGHT_RATES,
    rate: 5,
    reducedMotion,
  });
  return {
    ...player,
    atMilliseconds: computed(() => (player.atSeconds.value === null ? Number.NaN : Math.round(player.atSeconds.value * 1000))),
    seekMilliseconds: (milliseconds) => player.seek(milliseconds / 1000),
  };
}
