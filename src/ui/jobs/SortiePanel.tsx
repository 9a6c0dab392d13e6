import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { createSortieDesk } from '../../app/jobs/sortie-desk.ts';
import { formatDuration } from '../../core/text/number-formats.ts';
import { useApplication } from '../application-context.ts';
import { Fold } from '../fields/Fold.tsx';
import { useUnitText } from '../fields/units-context.ts';
import { WithUnits } from '../fields/WithUnits.tsx';
import { NumberCell } from '../fields/NumberCell.tsx';
import { clockText } from '../words/clock.ts';

/** Several words a day, one after the other, by the lead of the first: does it fit, and if not, what would. */
export function SortiePanel(): VNode | null {
  const { jobs } = useApplication();
  const state = jobs.state.value;
  return state.kind !== 'ready' || state.jobs.length < 2 ? null : (
    <Fold title="Several words a day" said="oil, fuel and time over a chain of jobs">
      <WithUnits>
        <Sortie />
      </WithUnits>
    </Fold>
  );
}

function Sortie(): VNode | null {
  const { database, planner, jobs } = useApplication();
  const desk = useMemo(() => createSortieDesk(database, planner), [database, planner]);
  const units = useUnitText();
  const shelf = jobs.state.value;
  if (shelf.kind !== 'ready') return null;
  const { jobIds, refillsBefore, turnRoundMinutes } = desk.choice.value;
  const chosen = jobIds.flatMap((id) => shelf.jobs.find((job) => job.id === id) ?? []);
  const state = desk.state.value;
  return (
    <div class="sortie" data-sortie={state.kind === 'flown' ? (state.result.fits ? 'fits' : 'short') : state.kind}>
      <ol>
        {chosen.map((job, index) => (
          <li key={job.id} class="row">
            <span>{job.name}</span>
            {index > 0 && (
              <label>
                <input
                  type="checkbox"
                  checked={refillsBefore.includes(job.id)}
                  onChange={(event) => {
                    const refill = event.currentTarget.checked;
                    desk.choose((before) => ({
                      ...before,
                      refillsBefore: refill ? [...before.refillsBefore, job.id] : before.refillsBefore.filter((id) => id !== job.id),
                    }));
                  }}
                />{' '}
                refill before it
              </label>
            )}
            <button type="button" class="plain" onClick={() => desk.choose((before) => ({ ...before, jobIds: before.jobIds.filter((id) => id !== job.id) }))}>
              Take out
            </button>
          </li>
        ))}
      </ol>
      <div class="row">
        {shelf.jobs
          .filter(({ id }) => !jobIds.includes(id))
          .map((job) => (
            <button key={job.id} type="button" class="plain" onClick={() => desk.choose((before) => ({ ...before, jobIds: [...before.jobIds, job.id] }))}>
              Add {job.name}
            </button>
          ))}
      </div>
      <div class="field">
        <span aria-hidden="true">Turn-round for a refill, min</span>
        <NumberCell
          label="Turn-round for a refill, minutes"
          value={turnRoundMinutes}
          limits={[0, 600]}
          onChange={(minutes) => desk.choose((before) => ({ ...before, turnRoundMinutes: minutes }))}
        />
      </div>
      <button type="button" class="main" disabled={chosen.length < 2 || state.kind === 'planning'} onClick={() => void desk.fly(shelf.jobs, units)}>
        Does it fit?
      </button>
      {state.kind === 'failed' && <p class="fault">{state.reason}</p>}
      {state.kind === 'flown' && (
        <>
          <table class="figures">
            <caption>
              {state.ship}, take-off {clockText(state.result.takeOffMilliseconds, chosen[0]?.site.timeZone ?? 'UTC', { day: 'weekday' })}
            </caption>
            <thead>
              <tr>
                <th scope="col">After</th>
                <th scope="col">Oil left</th>
                <th scope="col">Fuel left</th>
                <th scope="col">At its first smoke</th>
              </tr>
            </thead>
            <tbody>
              {state.result.steps.map(({ name, oilAfterPounds, fuelAfterGallons, lateSeconds }) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td class="number">{units.mass.own(oilAfterPounds)}</td>
                  <td class="number">{units.volume.own(fuelAfterGallons, 1)}</td>
                  <td>{Math.abs(lateSeconds) < 1 ? 'in time' : `${formatDuration(Math.abs(lateSeconds))} ${lateSeconds > 0 ? 'late' : 'early'}`}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p>Home with {units.volume.own(state.result.fuelAtEndGallons, 1)}.</p>
          {state.result.faults.length > 0 && (
            <ul class={state.result.fits ? 'small' : 'fault'}>
              {state.result.faults.map((fault) => (
                <li key={fault}>{fault}</li>
              ))}
            </ul>
          )}
          {!state.result.fits && (
            <p class="notice caution">
              {state.changes.length === 0
                ? 'No single change would make it fit: take a word out, or fly twice.'
                : `It would fit with ${state.changes.map(({ words }) => words).join('; or ')}. The first asks least.`}
            </p>
          )}
        </>
      )}
      <p class="small quiet">
        The first job{'\u2019'}s lead flies it all, from a field at the first site. Reckoned at the planned airspeed; descents cost nothing here. The pilot
        {'\u2019'}s own reckoning decides.
      </p>
    </div>
  );
}
