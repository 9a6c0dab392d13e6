import './booking.css';
import type { VNode } from 'preact';
import type { Job } from '../../../../core/job/job.ts';
import { jobLimits } from '../../../../core/job/job-limits.ts';
import { JOB_LENGTHS } from '../../../../core/job/job-schema.ts';
import { NumberCell } from '../../../fields/NumberCell.tsx';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { RemoveHeading } from '../../../fields/RemoveHeading.tsx';
import { useDesk } from '../../desk-context.ts';
import { CalendarExport } from './CalendarExport.tsx';
import { CrewEntry } from './CrewEntry.tsx';
import { OfficeEntry } from './OfficeEntry.tsx';
import { OutcomesEntry } from './OutcomesEntry.tsx';
import { PermissionsEntry } from './PermissionsEntry.tsx';

type Frequency = Job['frequencies'][number];

/** The booking: what it is called, who ordered it, what is permitted, on which frequencies it is flown, how it is called off, and notes. */
export function BookingEntry(): VNode {
  const { editor } = useDesk();
  const { name, knockItOffWords, frequencies, notes } = editor.job.value;
  const change = (index: number, part: Partial<Frequency>): void =>
    editor.edit(`frequency ${index + 1}`, (job) => ({ ...job, frequencies: job.frequencies.map((each, at) => (at === index ? { ...each, ...part } : each)) }));
  return (
    <div class="booking-entry">
      <div class="fields">
        <label class="field">
          <span>Name of the job</span>
          <input value={name} maxLength={60} onInput={(event) => editor.edit('the name', (job) => ({ ...job, name: event.currentTarget.value }))} />
        </label>
        <label class="field">
          <span>Words that call it off</span>
          <input
            value={knockItOffWords}
            maxLength={60}
            placeholder="not entered"
            onInput={(event) => editor.edit('the words that call it off', (job) => ({ ...job, knockItOffWords: event.currentTarget.value }))}
          />
        </label>
      </div>
      {frequencies.length > 0 && (
        <table class="entry-rows">
          <caption class="visually-hidden">Frequencies</caption>
          <thead>
            <tr>
              <th scope="col">Frequency for</th>
              <th scope="col">MHz</th>
              <RemoveHeading />
            </tr>
          </thead>
          <tbody>
            {frequencies.map(({ use, megahertz }, index) => (
              <tr key={index}>
                <td>
                  <input
                    aria-label={`Frequency ${index + 1}, what for`}
                    value={use}
                    placeholder="not entered"
                    maxLength={60}
                    onInput={(event) => change(index, { use: event.currentTarget.value })}
                  />
                </td>
                <td>
                  <NumberCell
                    label={`Frequency ${index + 1}, megahertz`}
                    value={megahertz}
                    limits={jobLimits('frequencies.megahertz')}
                    onChange={(next) => change(index, { megahertz: next })}
                  />
                </td>
                <td>
                  <RemoveButton
                    label={`Remove frequency ${index + 1}`}
                    onPress={() => editor.edit('a frequency less', (job) => ({ ...job, frequencies: job.frequencies.filter((_, at) => at !== index) }))}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {frequencies.length < JOB_LENGTHS.frequencies && <NewFrequency />}
      <OfficeEntry />
      <PermissionsEntry />
      <CrewEntry />
      <CalendarExport />
      <OutcomesEntry />
      <label class="field">
        <span>Notes</span>
        <textarea
          rows={4}
          maxLength={JOB_LENGTHS.notesCharacters}
          value={notes}
          onInput={(event) => editor.edit('the notes', (job) => ({ ...job, notes: event.currentTarget.value }))}
        />
      </label>
    </div>
  );
}

/** A frequency is added by typing it: none stands there before somebody says it. */
function NewFrequency(): VNode {
  const { editor } = useDesk();
  const count = editor.job.value.frequencies.length;
  return (
    <div class="field">
      <span aria-hidden="true">{count === 0 ? 'Frequency, MHz' : 'Another frequency, MHz'}</span>
      <NumberCell
        key={count}
        label={count === 0 ? 'Frequency in megahertz' : 'Another frequency in megahertz'}
        value={Number.NaN}
        limits={jobLimits('frequencies.megahertz')}
        placeholder="not entered"
        settled
        onChange={(megahertz) => editor.edit('a frequency', (job) => ({ ...job, frequencies: [...job.frequencies, { use: '', megahertz }] }))}
      />
    </div>
  );
}
