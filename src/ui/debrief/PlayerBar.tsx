import type { ComponentChildren, VNode } from 'preact';
import { useDebrief } from './debrief-context.ts';
import { PlayKey, RateChoice, ScrubBar } from '../drawing/PlayerKeys.tsx';
import { clockText } from '../words/clock.ts';
import type { FlightSpan } from './flight-player.ts';

export interface PlayerBarProps {
  readonly span: FlightSpan;
  readonly timeZone: string;
  /** Stands under the scrub bar and is as wide. */
  readonly children: ComponentChildren;
}

/** Plays the flight and scrubs through it; every picture follows. */
export function PlayerBar({ span, timeZone, children }: PlayerBarProps): VNode {
  const { player } = useDebrief();
  const at = player.atMilliseconds.value;
  const clock = clockText(at, timeZone, { seconds: true });
  const seek = (milliseconds: number): void => {
    player.pause();
    player.seekMilliseconds(milliseconds);
  };
  return (
    <div class="flight-player" role="group" aria-label="Play the flight">
      <ScrubBar
        player={player}
        fromSeconds={span.fromMilliseconds / 1000}
        toSeconds={span.toMilliseconds / 1000}
        stepSeconds={0.1}
        shownSeconds={at / 1000}
        label="Time of the flight"
        words={clock}
      />
      {children}
      <div class="player-keys">
        <PlayKey player={player} />
        <output class="player-time">{clock}</output>
        <button type="button" class="plain" onClick={() => seek(at - 1000)}>
          {'\u2212'}1 s
        </button>
        <button type="button" class="plain" onClick={() => seek(at + 1000)}>
          +1 s
        </button>
        <RateChoice player={player} />
      </div>
    </div>
  );
}
