import type { VNode } from 'preact';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { formatDuration } from '../../core/text/number-formats.ts';
import type { Player } from '../../app/player.ts';
import { PlayKey, RateChoice, ScrubBar } from '../drawing/PlayerKeys.tsx';

export interface SkyTimelineProps {
  readonly player: Player;
  readonly shownSeconds: number;
  readonly endSeconds: number;
  readonly readSeconds: number;
  readonly window: ReadingWindow;
}

/** Time from the first smoke until it is gone, with the window in which the whole text reads drawn along it. */
export function SkyTimeline({ player, shownSeconds, endSeconds, readSeconds, window }: SkyTimelineProps): VNode {
  const percent = (seconds: number): number => Math.min(100, Math.max(0, (100 * seconds) / endSeconds));
  const bar = (fromSeconds: number, toSeconds: number, name: string): VNode | null =>
    toSeconds > fromSeconds ? <rect class={name} x={percent(fromSeconds)} width={percent(toSeconds) - percent(fromSeconds)} y="0" height="8" /> : null;
  return (
    <div class="sky-timeline">
      <PlayKey player={player} />
      <div class="sky-track">
        <ScrubBar
          player={player}
          fromSeconds={0}
          toSeconds={Math.ceil(endSeconds)}
          stepSeconds={5}
          shownSeconds={shownSeconds}
          label="Time since first smoke"
          words={formatDuration(shownSeconds)}
        />
        <svg class="sky-bands" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
          {bar(0, window.fromSeconds, 'being-written')}
          {bar(window.fromSeconds, window.until.lowSeconds, 'reads-surely')}
          {bar(Math.max(window.fromSeconds, window.until.lowSeconds), window.until.highSeconds, 'reads-perhaps')}
          <rect class="read-mark" x={percent(readSeconds) - 0.2} width="0.4" y="-2" height="12" />
        </svg>
      </div>
      <output class="player-time">{formatDuration(shownSeconds)}</output>
      <RateChoice player={player} />
    </div>
  );
}
