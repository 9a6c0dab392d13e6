import type { VNode } from 'preact';
import type { Player } from '../../app/player.ts';

/** The key that plays and stops. */
export function PlayKey({ player }: { readonly player: Player }): VNode {
  const playing = player.playing.value;
  return (
    <button type="button" class="play" onClick={() => (playing ? player.pause() : player.play())}>
      {playing ? 'Pause' : 'Play'}
    </button>
  );
}

export interface ScrubBarProps {
  readonly player: Player;
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly stepSeconds: number;
  readonly shownSeconds: number;
  readonly label: string;
  /** The shown time in words. */
  readonly words: string;
}

/** The bar that scrubs: a touch of it stops the playing. */
export function ScrubBar({ player, fromSeconds, toSeconds, stepSeconds, shownSeconds, label, words }: ScrubBarProps): VNode {
  return (
    <input
      class="scrub"
      type="range"
      // On whole steps, so that a moment that is chosen is one that the bar can stand at.
      min={Math.floor(fromSeconds / stepSeconds) / (1 / stepSeconds)}
      max={Math.ceil(toSeconds / stepSeconds) / (1 / stepSeconds)}
      step={stepSeconds}
      value={shownSeconds}
      aria-label={label}
      aria-valuetext={words}
      onInput={(event) => {
        player.pause();
        player.seek(Number(event.currentTarget.value));
      }}
    />
  );
}

/** How fast it is played. */
export function RateChoice({ player }: { readonly player: Player }): VNode {
  return (
    <label class="player-rate">
      <span class="visually-hidden">Speed</span>
      <select value={String(player.rate.value)} onChange={(event) => player.setRate(Number(event.currentTarget.value))}>
        {player.rates.map((rate) => (
          <option key={rate} value={String(rate)}>
            {rate}
            {'\u00d7'}
          </option>
        ))}
      </select>
    </label>
  );
}
