import { useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import { formatDuration } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';
import { PLAY_RATES } from '../../app/draw/plan-player.ts';

/** Plays the plan and scrubs through it; both pictures follow. */
export function PlayerBar(): VNode | null {
  const { player, planned, problem } = useDesk();
  const plan = planned.value?.plan;
  const said = useComputed(() => {
    const now = player.atSeconds.value;
    if (plan === undefined || now === null) return '';
    return plan.ships
      .map((ship) => {
        const leg = ship.legs.find(({ endSeconds }) => now < endSeconds);
        const letter = leg?.kind === 'smoke' ? `${leg.character}, stroke ${leg.strokeIndex + 1}` : leg === undefined ? 'finished' : 'smoke off';
        return letter;
      })
      .join(' \u00b7 ');
  });
  if (plan === undefined) return problem.value === null ? <div class="player player-waiting" aria-hidden="true" /> : null;
  const now = player.atSeconds.value;
  const playing = player.playing.value;
  return (
    <div class="player" role="group" aria-label="Play the plan">
      <button type="button" class="play" onClick={() => (playing ? player.pause() : player.play())}>
        {playing ? 'Pause' : 'Play'}
      </button>
      <input
        class="scrub"
        type="range"
        min={0}
        max={Math.ceil(plan.durationSeconds)}
        step={1}
        value={now ?? Math.ceil(plan.durationSeconds)}
        aria-label="Time since first smoke"
        aria-valuetext={formatDuration(now ?? plan.durationSeconds)}
        onInput={(event) => {
          player.pause();
          player.seek(Number(event.currentTarget.value));
        }}
      />
      <output class="player-time">
        {formatDuration(now ?? plan.durationSeconds)} of {formatDuration(plan.durationSeconds)}
      </output>
      <label class="player-rate">
        <span class="visually-hidden">Speed</span>
        <select value={String(player.rate.value)} onChange={(event) => setRate(player, event.currentTarget.value)}>
          {PLAY_RATES.map((rate) => (
            <option key={rate} value={String(rate)}>
              {rate}
              {'\u00d7'}
            </option>
          ))}
        </select>
      </label>
      <button type="button" class="plain whole" disabled={now === null} onClick={() => player.seek(null)}>
        Whole text
      </button>
      <span class="player-said quiet small">{said}</span>
    </div>
  );
}

function setRate(player: ReturnType<typeof useDesk>['player'], text: string): void {
  const rate = PLAY_RATES.find((each) => String(each) === text);
  if (rate !== undefined) player.setRate(rate);
}
