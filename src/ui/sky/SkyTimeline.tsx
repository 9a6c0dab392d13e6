import type { VNode } from 'preact';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { formatDuration } from '../../core/text/number-formats.ts';
import { PLAY_RATES, type PlanPlayer } from '../../app/draw/plan-player.ts';

export interface SkyTimelineProps {
  readonly player: PlanPlayer;
  readonly shownSeconds: number;
  readonly endSeconds: number;
  readonly readSeconds: number;
  readonly window: ReadingWindow;
}

/** Time from the first smoke until it is gone, with the window in which the whole text reads drawn along it. */
export function SkyTimeline({ player, shownSeconds, endSeconds, readSeconds, window }: SkyTimelineProps): VNode {
  const playing = player.playing.value;
  const percent = (seconds: number): number => Math.min(100, Math.max(0, (100 * seconds) / endSeconds));
  const bar = (fromSeconds: number, toSeconds: number, name: string): VNode | null =>
    toSeconds > fromSeconds ? <rect class={name} x={percent(fromSeconds)} width={percent(toSeconds) - percent(fromSeconds)} y="0" height="8" /> : null;
  return (
    <div class="sky-timeline">
      <button type="button" class="play" onClick={() => (playing ? player.pause() : player.play())}>
        {playing ? 'Pause' : 'Play'}
      </button>
      <div class="sky-track">
        <input
          class="scrub"
          type="range"
          min={0}
          max={Math.ceil(endSeconds)}
          step={5}
          value={shownSeconds}
          aria-label="Time since first smoke"
          aria-valuetext={formatDuration(shownSeconds)}
          onInput={(event) => {
            player.pause();
            player.seek(Number(event.currentTarget.value));
          }}
        />
        <svg class="sky-bands" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
          {bar(0, window.fromSeconds, 'being-written')}
          {bar(window.fromSeconds, window.until.lowSeconds, 'reads-surely')}
          {bar(Math.max(window.fromSeconds, window.until.lowSeconds), window.until.highSeconds, 'reads-perhaps')}
          <rect class="read-mark" x={percent(readSeconds) - 0.2} width="0.4" y="-2" height="12" />
        </svg>
      </div>
      <output class="player-time">{formatDuration(shownSeconds)}</output>
      <label>
        <span class="visually-hidden">Speed</span>
        <select
          value={String(player.rate.value)}
          onChange={(event) => player.setRate(PLAY_RATES.find((rate) => String(rate) === event.currentTarget.value) ?? 20)}
        >
          {PLAY_RATES.map((rate) => (
            <option key={rate} value={String(rate)}>
              {rate}
              {'\u00d7'}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}
