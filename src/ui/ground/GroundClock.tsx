import { clockText, dayText } from '../words/clock.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { clockOffFromShips } from '../../app/ground/clock-off.ts';
import { useApplication } from '../application-context.ts';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { useGround } from './ground-context.ts';
import { countWords } from './ground-words.ts';

const AHEAD_SECONDS = [60, 120, 180, 300, 600] as const;

const SOURCE_WORDS = { plan: 'by the plan and this device\u2019s clock', radio: 'by the call you heard', link: 'by the lead, over the link' } as const;

/** The time from the first smoke, and how it is set by a call on the radio. */
export function GroundClock(): VNode {
  const desk = useGround();
  const ahead = useSignal<number>(180);
  const seconds = desk.sinceDatumSeconds.value;
  const datum = desk.datum.value;
  const parted = desk.clockPartedSeconds.value;
  return (
    <section class="ground-clock" aria-label="Clock">
      <p class="ground-count" data-figure="since-datum" data-value={seconds === null ? '' : seconds.toFixed(1)}>
        <span class="ground-count-digits">{seconds === null ? '\u2013' : countWords(seconds)}</span>
        <span class="quiet">{seconds !== null && seconds < 0 ? 'to the first smoke' : 'since the first smoke'}</span>
      </p>
      {datum !== null && (
        <p class="small" data-figure="datum-source" data-value={datum.source}>
          First smoke {dayText(datum.datumMilliseconds, desk.job.site.timeZone)},{' '}
          {clockText(datum.datumMilliseconds, desk.job.site.timeZone, { seconds: true })}, {SOURCE_WORDS[datum.source]}.
        </p>
      )}
      <div class="row">
        <button type="button" class="main" onClick={() => desk.takeHack(0)}>
          Smoke on now
        </button>
        <span class="row ground-hack">
          <button type="button" onClick={() => desk.takeHack(ahead.value)}>
            Time hack
          </button>
          <label class="row">
            <span>first smoke in</span>
            <select value={String(ahead.value)} onChange={(event) => (ahead.value = Number(event.currentTarget.value))}>
              {AHEAD_SECONDS.map((each) => (
                <option key={each} value={String(each)}>
                  {formatDuration(each)}
                </option>
              ))}
            </select>
          </label>
        </span>
      </div>
      <p class="quiet small">
        Touch “Smoke on now” when the first smoke is seen or called; “Time hack” on the call “hack”, with the time that is called until the first smoke.
      </p>
      {datum !== null && (
        <div class="row" role="group" aria-label="Move the clock">
          <button type="button" onClick={() => desk.moveDatum(1)} aria-label="One second later">
            1 s later
          </button>
          <button type="button" onClick={() => desk.moveDatum(-1)} aria-label="One second earlier">
            1 s earlier
          </button>
          {datum.source !== 'plan' && (
            <button type="button" class="plain" onClick={() => desk.goByPlan()}>
              Go by the plan again
            </button>
          )}
        </div>
      )}
      <LeadDatum />
      <ClockOffNotice />
      {parted !== null && (
        <p class="notice caution" role="alert">
          The clocks of this device parted by {formatNumber(Math.abs(parted))} s since the hack: it slept, or its time was set. Check the count against the
          radio.
        </p>
      )}
    </section>
  );
}

/** What the lead says of its first smoke, when it is not what is counted here. */
function LeadDatum(): VNode | null {
  const desk = useGround();
  const differs = desk.leadDiffersSeconds.value;
  if (differs === null || Math.abs(differs) <= 1) return null;
  return (
    <div class="notice" role="status">
      <p>
        Over the link the lead’s first smoke is {formatDuration(Math.abs(differs))} {differs > 0 ? 'later' : 'earlier'} than counted here.
      </p>
      <button type="button" onClick={() => desk.takeLeadDatum()}>
        Count by the lead
      </button>
    </div>
  );
}

/** A device's clock that is minutes wrong puts a count by the plan as much wrong: say so, and what helps. */
function ClockOffNotice(): VNode | null {
  const { link } = useApplication();
  const { datum } = useGround();
  const off = clockOffFromShips(link.room.value?.ships ?? []);
  if (off === null) return null;
  const whose = off.isOurs ? 'the ships\u2019' : `${off.ships.join(' and ')}\u2019s`;
  return (
    <p class="notice caution" role="alert" data-figure="clock-off" data-value={off.aheadSeconds.toFixed(1)}>
      This device’s clock is {formatDuration(Math.abs(off.aheadSeconds))} {off.aheadSeconds > 0 ? 'ahead of' : 'behind'} {whose}
      {off.isOurs ? '' : '; one of the two is wrong'}. What the link brings is corrected for it.{' '}
      {datum.value?.source === 'plan'
        ? 'The count above is not: take the time hack, or set the clock.'
        : 'The count above does not go by it. Set the clock before you go without the link.'}
    </p>
  );
}
