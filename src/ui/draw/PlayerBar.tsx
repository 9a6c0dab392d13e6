import { useComputed } from '@preact/signals';
import type { VNode } from 'preact';
import { formatDuration } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';
import { PlayKey, RateChoice, ScrubBar } from '../drawing/PlayerKeys.tsx';

/** Plays the plan and scrubs through it; both pictures follow. */
export function PlayerBar(): VNode | null {
  const { player, planned, awaited } = useDesk();
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
  if (plan === undefined) return awaited.value ? <div class="player player-waiting" aria-hidden="true" /> : null;
  const now = player.atSeconds.value;
  return (
    <div class="player" role="group" aria-label="Play the plan">
      <PlayKey player={player} />
      <ScrubBar
        player={player}
        fromSeconds={0}
        toSeconds={Math.ceil(plan.durationSeconds)}
        stepSeconds={1}
        shownSeconds={now ?? Math.ceil(plan.durationSeconds)}
        label="Time since first smoke"
        words={formatDuration(now ?? plan.durationSeconds)}
      />
      <output class="player-time">
        {formatDuration(now ?? plan.durationSeconds)} of {formatDuration(plan.durationSeconds)}
      </output>
      <RateChoice player={player} />
      <button type="button" class="plain whole" disabled={now === null} onClick={() => player.seek(null)}>
        Whole text
      </button>
      <span class="player-said quiet small">{said}</span>
    </div>
  );
}
