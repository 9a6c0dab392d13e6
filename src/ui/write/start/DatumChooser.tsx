import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';
import { formatDuration } from '../../../core/text/number-formats.ts';
import { localInputValue, millisecondsFromLocalInput } from './local-input-time.ts';

/** Time to come to the circles, find the wind there and climb. */
const FORMATION_HACK_SECONDS = 600;
const HACK_SECONDS = [60, 120, 180, 300, 600] as const;

/** When the letters' place over the ground is fixed: from then on they move with the air. */
export function DatumChooser({ preflight }: { readonly preflight: Preflight }): VNode {
  const { datum, job } = preflight;
  const planned = preflight.planned.value;
  const readMilliseconds = Date.parse(job.readTime);
  const firstSmokeMilliseconds = readMilliseconds - (planned?.ok === true ? planned.value.plan.durationSeconds * 1000 : 0);
  const wish = datum.value;
  return (
    <fieldset class="panel write-choice">
      <legend>Datum: when the word is hung</legend>
      {job.ships.length === 1 && (
        <label class="write-option">
          <input type="radio" name="datum" checked={wish?.kind === 'first-smoke'} onChange={() => (datum.value = { kind: 'first-smoke' })} />
          <span>
            <strong>At the first smoke</strong>
            <span class="quiet small">The letters begin where planned, whenever that is.</span>
          </span>
        </label>
      )}
      <label class="write-option">
        <input
          type="radio"
          name="datum"
          checked={wish?.kind === 'at-time'}
          onChange={() => (datum.value = { kind: 'at-time', wallMilliseconds: Math.max(firstSmokeMilliseconds, Date.now() + 5 * 60_000) })}
        />
        <span>
          <strong>At a time</strong>
          <span class="quiet small">To be read at the job’s read time; the letters drift from that moment on.</span>
        </span>
      </label>
      {wish?.kind === 'at-time' && (
        <label class="field write-options">
          <span>First smoke at, this device’s time</span>
          <input
            type="datetime-local"
            step="1"
            value={localInputValue(wish.wallMilliseconds)}
            onChange={(event) => {
              const typed = millisecondsFromLocalInput(event.currentTarget.value);
              if (typed !== null) datum.value = { kind: 'at-time', wallMilliseconds: typed };
            }}
          />
        </label>
      )}
      <label class="write-option">
        <input
          type="radio"
          name="datum"
          checked={wish?.kind === 'time-hack'}
          onChange={() => (datum.value = { kind: 'time-hack', afterSeconds: job.ships.length > 1 ? FORMATION_HACK_SECONDS : 180 })}
        />
        <span>
          <strong>Time hack</strong>
          <span class="quiet small">
            All ships press start together on a radio call.{' '}
            {job.ships.length > 1 &&
              'Who presses seconds late flies among the others: at five minutes the lead calls a time check, and whose countdown is 3 s off says so. Who is not established 75 s before the first smoke says so. Either way the lead calls a new hack.'}
          </span>
        </span>
      </label>
      {wish?.kind === 'time-hack' && (
        <label class="field write-options">
          <span>First smoke after the call</span>
          <select
            value={String(wish.afterSeconds)}
            onChange={(event) => (datum.value = { kind: 'time-hack', afterSeconds: Number(event.currentTarget.value) })}
          >
            {HACK_SECONDS.map((seconds) => (
              <option key={seconds} value={String(seconds)}>
                {formatDuration(seconds)}
              </option>
            ))}
          </select>
        </label>
      )}
    </fieldset>
  );
}
