import { clockText, dayText, shortDayText } from '../words/clock.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { GroundDesk } from '../../app/ground/ground-desk.ts';
import { clockOffFromShips } from '../../app/ground/clock-off.ts';
import { useApplication } from '../application-context.ts';
import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import { Fold } from '../fields/Fold.tsx';
import { useGround } from './ground-context.ts';
import { countWords, isFarOff, secondsFromTyped } from './ground-words.ts';

const SOURCE_WORDS = { plan: 'by the plan and this device\u2019s clock', radio: 'by the call you heard', link: 'by the lead, over the link' } as const;

/** A first smoke nearer than this may be called at any moment: the ways to set the clock stand open. */
const SOON_SECONDS = 3_600;
/** So long after the first smoke the clock runs, and its keys fold away. */
const SEEN_SECONDS = 10;

/** The time from the first smoke; a day, while that is far. How it is set by a call folds away once it runs. */
export function GroundClock(): VNode {
  const desk = useGround();
  const seconds = desk.sinceDatumSeconds.value;
  const datum = desk.datum.value;
  const apart = desk.clockApartSeconds.value;
  const isFar = seconds !== null && isFarOff(seconds);
  const { timeZone } = desk.job.site;
  return (
    <section class="ground-clock" aria-label="Clock">
      <p class="ground-count" data-figure="since-datum" data-value={seconds === null ? '' : seconds.toFixed(1)}>
        <span class="ground-count-digits">
          {seconds === null ? '\u2013' : isFar && datum !== null ? shortDayText(datum.datumMilliseconds, timeZone) : countWords(seconds)}
        </span>
        <span class="quiet">{isFar ? 'first smoke' : seconds !== null && seconds < 0 ? 'to the first smoke' : 'since the first smoke'}</span>
      </p>
      {datum !== null && (
        <p class="small" data-figure="datum-source" data-value={datum.source}>
          First smoke {clockText(datum.datumMilliseconds, timeZone, { seconds: true })}
          {isFar ? '' : `, ${dayText(datum.datumMilliseconds, timeZone)}`}, {SOURCE_WORDS[datum.source]}.
        </p>
      )}
      <LeadDatum />
      <ClockOffNotice />
      {apart !== null && (
        <p class="notice caution" role="alert">
          The clocks of this device went apart by {formatNumber(Math.abs(apart))} s since the hack: it slept, or its time was set. Check the count against the
          radio.
        </p>
      )}
    </section>
  );
}

/** Whether the clock is still to be set by a call that may come at any moment. */
function isAwaited({ datum, sinceDatumSeconds, plan }: GroundDesk): boolean {
  // When the first smoke is to come is not known yet.
  if (datum.value === null && plan.value.kind === 'planning') return false;
  const seconds = sinceDatumSeconds.value;
  if (datum.value === null || seconds === null) return true;
  // The first smoke may be seen at another moment than it was called for.
  return datum.value.source === 'plan' ? Math.abs(seconds) < SOON_SECONDS : seconds < SEEN_SECONDS;
}

/** The ways to set the clock: open above all else while a call is awaited, folded below the calls once it runs or is far off. */
export function SetClockFold({ place }: { readonly place: 'above' | 'below' }): VNode | null {
  const awaited = isAwaited(useGround());
  if (awaited !== (place === 'above')) return null;
  return (
    <Fold title="Set the clock" said="by a call" open={awaited}>
      <SetClock />
    </Fold>
  );
}

/** The clock set by what is called on the radio. */
function SetClock(): VNode {
  const desk = useGround();
  const datum = desk.datum.value;
  const typed = useSignal('3:00');
  const ahead = secondsFromTyped(typed.value);
  return (
    <>
      <div class="row">
        <button type="button" onClick={() => desk.takeHack(0)}>
          I see the first smoke
        </button>
        <span class="row ground-hack">
          <button type="button" disabled={ahead === null} onClick={() => ahead !== null && desk.takeHack(ahead)}>
            Time hack
          </button>
          <label class="row">
            <span>first smoke in</span>
            <input
              size={6}
              inputMode="numeric"
              value={typed.value}
              aria-invalid={ahead === null}
              onInput={(event) => (typed.value = event.currentTarget.value)}
            />
          </label>
        </span>
      </div>
      {ahead === null && (
        <p class="fault" role="alert">
          Minutes and seconds are wanted, such as 3:00 or 12:30.
        </p>
      )}
      <p class="quiet small">
        For this clock alone: touch “I see the first smoke” when it is seen or called; “Time hack” on the call “hack”, with the minutes and seconds that are
        called until the first smoke.
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
    </>
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
