import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { BOOKING_LENGTHS, OUTCOMES } from '../../../../core/job/booking-schema.ts';
import type { JobBooking } from '../../../../core/job/job.ts';
import { jobLimits } from '../../../../core/job/job-limits.ts';
import { NumberCell } from '../../../fields/NumberCell.tsx';
import { RemoveButton } from '../../../fields/RemoveButton.tsx';
import { clockText } from '../../../words/clock.ts';
import { utcText } from '../../../words/zoned-time.ts';
import { useDesk } from '../../desk-context.ts';

type Outcome = JobBooking['outcomes'][number];

/** What became of each day that was booked: flown, dud, cancelled, postponed, why, who called it, what it cost. */
export function OutcomesEntry(): VNode {
  const { editor } = useDesk();
  const kind = useSignal<Outcome['kind']>('flown');
  const { booking, site } = editor.job.value;
  const put = (name: string, next: (before: readonly Outcome[]) => readonly Outcome[]): void =>
    editor.edit(name, (job) => ({ ...job, booking: { ...job.booking, outcomes: next(job.booking.outcomes) } }));
  const change = (index: number, part: Partial<Outcome>): void =>
    put(`outcome ${index + 1}`, (before) => before.map((each, at) => (at === index ? { ...each, ...part } : each)));
  return (
    <div class="outcomes-entry">
      <h3>What became of it</h3>
      {booking.outcomes.map((outcome, index) => (
        <fieldset key={index} class="entry-group" data-outcome={outcome.kind}>
          <legend>
            {outcome.kind}, {clockText(Date.parse(outcome.atTime), site.timeZone, { day: 'date' })}
          </legend>
          <label class="field">
            <span>Cause</span>
            <input value={outcome.cause} maxLength={60} placeholder="not entered" onInput={(event) => change(index, { cause: event.currentTarget.value })} />
          </label>
          <label class="field">
            <span>Called by</span>
            <input
              value={outcome.calledBy}
              maxLength={60}
              placeholder="not entered"
              onInput={(event) => change(index, { calledBy: event.currentTarget.value })}
            />
          </label>
          <div class="field">
            <span aria-hidden="true">It cost{booking.feeCurrency === '' ? '' : `, ${booking.feeCurrency}`}</span>
            <NumberCell
              label={`Outcome ${index + 1}, what it cost; empty is not entered`}
              value={outcome.costAmount ?? Number.NaN}
              limits={jobLimits('booking.outcomes.costAmount')}
              placeholder="not entered"
              onChange={(costAmount) => change(index, { costAmount })}
              onEmpty={() => change(index, { costAmount: null })}
            />
          </div>
          <RemoveButton label={`Remove outcome ${index + 1}`} onPress={() => put('an outcome less', (before) => before.filter((_, at) => at !== index))} />
        </fieldset>
      ))}
      {booking.outcomes.length < BOOKING_LENGTHS.outcomes && (
        <div class="row">
          <label class="field">
            <span>Outcome</span>
            <select value={kind.value} onChange={(event) => (kind.value = event.currentTarget.value as Outcome['kind'])}>
              {OUTCOMES.map((each) => (
                <option key={each} value={each}>
                  {each}
                </option>
              ))}
            </select>
          </label>
          <button
            type="button"
            onClick={() =>
              put('an outcome', (before) => [...before, { atTime: utcText(Date.now()), kind: kind.value, cause: '', calledBy: '', costAmount: null }])
            }
          >
            Write it down
          </button>
        </div>
      )}
    </div>
  );
}
