import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { DeskShip } from '../../app/debrief/desk-types.ts';
import { measuredWind, measuredWindRow, windsWithMeasured } from '../../core/debrief/measured-wind.ts';
import type { Job } from '../../core/job/job.ts';
import { JOB_LENGTHS } from '../../core/job/job-schema.ts';
import { useApplication } from '../application-context.ts';
import { formatBearing } from '../../core/text/number-formats.ts';
import { useUnitText } from '../fields/units-context.ts';

export interface WindToJobProps {
  readonly ship: DeskShip;
  /** Of the flight; chosen first. */
  readonly jobId: string | null;
}

/** Puts the wind that a flight measured among a job's winds aloft, at the height it was flown. */
export function WindToJob({ ship, jobId }: WindToJobProps): VNode | null {
  const { jobs } = useApplication();
  const units = useUnitText();
  const chosen = useSignal<string | null>(null);
  const done = useSignal<{ readonly words: string; readonly before: Job | null } | null>(null);
  const found = ship.debrief === null ? null : measuredWind(ship.log, ship.debrief.flight);
  const state = jobs.state.value;
  if (found === null || state.kind !== 'ready' || state.jobs.length === 0) return null;
  const row = measuredWindRow(found);
  const job = state.jobs.find(({ id }) => id === (chosen.value ?? jobId)) ?? state.jobs[0];
  if (job === undefined) return null;
  const said = `${units.height.own(row.altitudeFeet)}, ${row.fromDegreesTrue === null ? 'light and variable' : `${formatBearing(row.fromDegreesTrue)}\u00b0 at ${units.speed.own(row.speedKnots, 1)}`}`;
  const save = async (next: Job, words: string, before: Job | null): Promise<void> => {
    try {
      await jobs.save(next);
      done.value = { words, before };
    } catch (error) {
      done.value = { words: `Not stored: ${error instanceof Error ? error.message : String(error)}.`, before: null };
    }
  };
  const put = (): Promise<void> => {
    const winds = windsWithMeasured(job.winds, row);
    if (winds === null) {
      done.value = { words: `${job.name} already has ${JOB_LENGTHS.winds} heights; take one out on Draw first.`, before: null };
      return Promise.resolve();
    }
    return save({ ...job, winds }, `${said} now stands among the winds of ${job.name}.`, job);
  };
  const undo = (before: Job): Promise<void> =>
    save({ ...(jobs.find(before.id) ?? before), winds: before.winds }, `The winds of ${before.name} are as they were.`, null);
  return (
    <div class="wind-to-job">
      {state.jobs.length > 1 && (
        <label class="field">
          <span>Into the winds of</span>
          <select value={job.id} onChange={(event) => (chosen.value = event.currentTarget.value)}>
            {state.jobs.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      <button type="button" onClick={() => void put()} title={`Puts ${said} among the winds aloft of ${job.name}`}>
        Plan with this wind
      </button>
      <p class="small" role="status">
        {done.value === null ? `${said}, as a row of ${job.name}. It was so then; look at the day's forecast beside it.` : done.value.words}{' '}
        {done.value !== null && done.value.before !== null && (
          <button type="button" class="plain" onClick={() => done.value?.before != null && void undo(done.value.before)}>
            Undo
          </button>
        )}
      </p>
    </div>
  );
}
