import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { letterTimes } from '../../core/plan/budget.ts';
import { formatDuration } from '../../core/text/number-formats.ts';
import { useDesk } from './desk-context.ts';
import { Fold } from '../fields/Fold.tsx';

/** When each letter is written, and how old its smoke is when the last stroke is done. */
export function LetterAges(): VNode | null {
  const { planned } = useDesk();
  const plan = planned.value?.plan;
  const times = useMemo(() => (plan === undefined ? [] : letterTimes(plan)), [plan]);
  if (times.length === 0) return null;
  const oldest = times.reduce((most, time) => (time.oldestSmokeSeconds > most.oldestSmokeSeconds ? time : most));
  return (
    <Fold title="Age of the letters" said={`at the end ${oldest.character} is the oldest, ${formatDuration(oldest.oldestSmokeSeconds)}`}>
      <div class="scrolls" role="region" tabIndex={0} aria-label="Times of the letters">
        <table class="figures letter-ages">
          <thead>
            <tr>
              <th scope="col">Letter</th>
              <th scope="col" class="number">
                Begun
              </th>
              <th scope="col" class="number">
                Done
              </th>
              <th scope="col" class="number">
                Age at the end
              </th>
            </tr>
          </thead>
          <tbody>
            {times.map(({ letterIndex, character, begunSeconds, completedSeconds, oldestSmokeSeconds, newestSmokeSeconds }) => (
              <tr key={letterIndex} data-letter={character} data-age-seconds={oldestSmokeSeconds.toFixed(1)}>
                <th scope="row">{character}</th>
                <td class="number">{formatDuration(begunSeconds)}</td>
                <td class="number">{formatDuration(completedSeconds)}</td>
                <td class="number">
                  {formatDuration(oldestSmokeSeconds)} to {formatDuration(newestSmokeSeconds)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Fold>
  );
}
