import type { ComponentChildren, VNode } from 'preact';
import { useDebrief } from './debrief-context.ts';
import { FLIGHT_RATES, type FlightSpan } from './flight-player.ts';
import { utcClock } from './flight-words.ts';

export interface PlayerBarProps {
  readonly span: FlightSpan;
  readonly timeZone: string;
  /** Stands under the scrub bar and is as wide. */
  readonly children: ComponentChildren;
}

/** Plays the flight and scrubs through it; every picture follows. */
export function PlayerBar({ span, timeZone, children }: PlayerBarProps): VNode {
  const { player } = useDebrief();
  const playing = player.playing.value;
  const at = player.atMilliseconds.value;
  const clock = utcClock(at, timeZone);
  const seek = (milliseconds: number): void => {
    player.pause();
    player.seek(milliseconds);
  };
  return (
    <div class="flight-player" role="group" aria-label="Play the flight">
      <input
        class="scrub"
        type="range"
        min={span.fromMilliseconds}
        max={span.toMilliseconds}
        step={100}
        value={at}
        aria-label="Time of the flight"
        aria-valuetext={clock}
        onInput={(event) => seek(Number(event.currentTarget.value))}
      />
      {children}
      <div class="player-keys">
        <button type="button" class="play" onClick={() => (playing ? player.pause() : player.play())}>
          {playing ? 'Pause' : 'Play'}
        </button>
        <output class="player-time">{clock}</output>
        <button type="button" class="plain" onClick={() => seek(at - 1000)}>
          {'\u2212'}1 s
        </button>
        <button type="button" class="plain" onClick={() => seek(at + 1000)}>
          +1 s
        </button>
        <label>
          <span class="visually-hidden">Speed</span>
          <select
            value={String(player.rate.value)}
            onChange={(event) => player.setRate(FLIGHT_RATES.find((rate) => String(rate) === event.currentTarget.value) ?? 1)}
          >
            {FLIGHT_RATES.map((rate) => (
              <option key={rate} value={String(rate)}>
                {rate}
                {'\u00d7'}
              </option>
            ))}
          </select>
        </label>
      </div>
    </div>
  );
}
