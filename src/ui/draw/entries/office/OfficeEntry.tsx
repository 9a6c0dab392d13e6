import type { VNode } from 'preact';
import { useState } from 'preact/hooks';
import { BOOKING_LENGTHS, OWED } from '../../../../core/job/booking-schema.ts';
import type { JobBooking } from '../../../../core/job/job.ts';
import { jobLimits } from '../../../../core/job/job-limits.ts';
import { LocalTimeField } from '../../../fields/LocalTimeField.tsx';
import { NumberCell } from '../../../fields/NumberCell.tsx';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { TextField } from '../../../fields/TextField.tsx';
import { useDesk } from '../../desk-context.ts';

const OWED_WORDS: Readonly<Record<(typeof OWED)[number], string>> = { words: 'The words in the sky', pictures: 'Pictures', film: 'A film' };

/** Who ordered it, for what, by when; the hours of the day and those kept free. */
export function OfficeEntry(): VNode {
  const { editor } = useDesk();
  const { booking, site } = editor.job.value;
  const set = (name: string, part: Partial<JobBooking>): void => editor.edit(name, (job) => ({ ...job, booking: { ...job.booking, ...part } }));
  const { timeZone } = site;
  return (
    <div class="office-entry">
      <div class="fields">
        <TextField label="Client" value={booking.client} onInput={(client) => set('the client', { client })} />
        <TextField label="Who to call, and number" value={booking.contact} onInput={(contact) => set('the contact', { contact })} />
        <div class="field">
          <span aria-hidden="true">Fee</span>
          <NumberCell
            label="Fee; empty is not entered"
            value={booking.feeAmount ?? Number.NaN}
            limits={jobLimits('booking.feeAmount')}
            placeholder="not entered"
            onChange={(feeAmount) => set('the fee', { feeAmount })}
            onEmpty={() => set('the fee', { feeAmount: null })}
          />
        </div>
        <CurrencyField value={booking.feeCurrency} onChange={(feeCurrency) => set('the currency', { feeCurrency })} />
      </div>
      <fieldset class="choice-field owed">
        <legend>Owed for it</legend>
        {OWED.map((kind) => (
          <label key={kind}>
            <input
              type="checkbox"
              checked={booking.owed.includes(kind)}
              onChange={(event) =>
                set('what is owed', { owed: OWED.filter((each) => (each === kind ? event.currentTarget.checked : booking.owed.includes(each))) })
              }
            />{' '}
            {OWED_WORDS[kind]}
          </label>
        ))}
      </fieldset>
      <div class="fields">
        <LocalTimeField label="Owed by" time={booking.deadlineTime} timeZone={timeZone} onChange={(deadlineTime) => set('the deadline', { deadlineTime })} />
        <LocalTimeField label="Go or no-go is called at" time={booking.callTime} timeZone={timeZone} onChange={(callTime) => set('the call', { callTime })} />
        <LocalTimeField
          label="Report for the brief at"
          time={booking.reportTime}
          timeZone={timeZone}
          onChange={(reportTime) => set('the report time', { reportTime })}
        />
      </div>
      <h3>Spare dates</h3>
      <ul class="spare-times">
        {booking.spareTimes.map((time, index) => (
          <li key={index} class="row">
            <LocalTimeField
              label={`Spare ${index + 1}`}
              time={time}
              timeZone={timeZone}
              onChange={(next) => set('a spare date', { spareTimes: next === null ? booking.spareTimes : booking.spareTimes.with(index, next) })}
            />
            <button type="button" class="plain" onClick={() => editor.edit('the read time', (job) => swapped(job, index))}>
              Fly then
            </button>
            <RemoveButton
              label={`Remove spare ${index + 1}`}
              onPress={() => set('a spare date less', { spareTimes: booking.spareTimes.filter((_, at) => at !== index) })}
            />
          </li>
        ))}
      </ul>
      {booking.spareTimes.length < BOOKING_LENGTHS.spareTimes && (
        <LocalTimeField
          key={booking.spareTimes.length}
          label={booking.spareTimes.length === 0 ? 'Spare date' : 'Another spare date'}
          time={null}
          timeZone={timeZone}
          onChange={(time) => {
            if (time !== null) set('a spare date', { spareTimes: [...booking.spareTimes, time] });
          }}
        />
      )}
    </div>
  );
}

/** The job read at a spare time; the one it had is kept as the spare. */
function swapped<Swapped extends { readonly readTime: string; readonly booking: JobBooking; readonly notEntered: readonly string[] }>(
  job: Swapped,
  index: number,
): Swapped {
  const next = job.booking.spareTimes[index];
  if (next === undefined) return job;
  const known = !job.notEntered.includes('readTime');
  const spareTimes = known ? job.booking.spareTimes.with(index, job.readTime) : job.booking.spareTimes.filter((_, at) => at !== index);
  return { ...job, readTime: next, notEntered: job.notEntered.filter((path) => path !== 'readTime'), booking: { ...job.booking, spareTimes } };
}

/** Three letters, as ISO 4217 has them; a sign is asked what it stands for. */
function CurrencyField({ value, onChange }: { readonly value: string; readonly onChange: (value: string) => void }): VNode {
  const [draft, setDraft] = useState<string | null>(null);
  const fault =
    draft === null || /^([A-Za-z]{3})?$/.test(draft.trim())
      ? null
      : `\u201c${draft.trim()}\u201d: write the currency as three letters, such as EUR, USD or BRL.`;
  return (
    <label class="field">
      <span>Currency</span>
      <input
        value={draft ?? value}
        maxLength={12}
        size={5}
        autocapitalize="characters"
        placeholder="not entered"
        aria-invalid={fault === null ? undefined : 'true'}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          setDraft(typed);
          if (/^([A-Za-z]{3})?$/.test(typed.trim())) onChange(typed.trim().toUpperCase());
        }}
        onBlur={() => {
          if (fault === null) setDraft(null);
        }}
      />
      {fault !== null && (
        <span class="fault" role="alert">
          {fault}
        </span>
      )}
    </label>
  );
}
