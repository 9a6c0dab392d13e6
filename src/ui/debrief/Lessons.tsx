import type { VNode } from 'preact';
import { isNews, type Lesson } from '../../core/debrief/lessons/lessons.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import { jobLimits } from '../../core/job/job-limits.ts';
import { NumberCell } from '../fields/NumberCell.tsx';
import { useFieldUnit } from '../fields/units-context.ts';
import { useDebrief } from './debrief-context.ts';
import { LessonTrend } from './LessonTrend.tsx';

interface LessonWords {
  readonly title: string;
  readonly unit: string;
  readonly decimals: number;
  /** What carrying it over will change. */
  readonly into: string;
}

const WORDS: Readonly<Record<Lesson['kind'], LessonWords>> = {
  'valve-on': { title: 'Smoke comes after the switch', unit: 's', decimals: 1, into: 'the valve\u2019s opening time' },
  'valve-off': { title: 'Smoke ends after the switch', unit: 's', decimals: 1, into: 'the valve\u2019s closing time' },
  reaction: { title: 'From the cue to the hand', unit: 's', decimals: 1, into: 'the reaction' },
  'writing-bank': { title: 'Bank flown in curves', unit: '\u00b0', decimals: 0, into: 'the writing bank' },
  airspeed: { title: 'True airspeed held', unit: 'kt', decimals: 1, into: 'the true airspeed' },
  'oil-flow': { title: 'Smoke oil burnt', unit: 'lb/min', decimals: 1, into: 'the oil burnt a minute' },
  spreading: { title: 'Smoke spreads', unit: 'm\u00b2/s', decimals: 0, into: 'the smoke\u2019s spreading, for every job' },
};

const FROM: Readonly<Record<Lesson['from'], string>> = {
  'switch-marks': 'marks of the switch',
  turns: 'turns',
  'seen-smoke': 'times of smoke marked by hand',
  ratings: 'letters whose end was rated',
  photographs: 'widths in photographs',
  track: 'turns of the track',
  tank: 'reading of the tank',
};

/** What the flight teaches, how sure it is, and the touch that carries it over. */
export function Lessons(): VNode {
  const { desk } = useDebrief();
  const lessons = desk.lessons.value;
  const { label: pounds } = useFieldUnit('lb');
  const opened = desk.state.value;
  const real = opened.kind === 'open' && opened.flight.kind === 'flight';
  if (lessons.length === 0)
    return <p class="quiet">Nothing yet. Lessons come from the log once it has been flown again, from smoke marked by hand, and from what the ground rated.</p>;
  return (
    <>
      {!real && <p class="notice small">A rehearsal or a replay: it is measured, and teaches nothing that is kept.</p>}
      <ul class="lessons">
        {lessons.map((lesson) => (
          <LessonLine key={lesson.kind} lesson={lesson} real={real} />
        ))}
      </ul>
      {real && (
        <div class="field">
          <span aria-hidden="true">{pounds('Smoke oil left in the tank, lb')}</span>
          <NumberCell
            label={pounds('Smoke oil left in the tank, lb; empty is not read')}
            value={desk.oilLeftPounds.value ?? Number.NaN}
            limits={jobLimits('ships.smokeOilPounds')}
            unit="lb"
            placeholder="not read"
            onChange={(left) => (desk.oilLeftPounds.value = left)}
            onEmpty={() => (desk.oilLeftPounds.value = null)}
          />
        </div>
      )}
    </>
  );
}

function LessonLine({ lesson, real }: { readonly lesson: Lesson; readonly real: boolean }): VNode {
  const { desk } = useDebrief();
  const { title, unit: ownUnit, decimals, into } = WORDS[lesson.kind];
  const { unit, shown: inUnit } = useFieldUnit(ownUnit);
  const { value, sigma, count } = lesson.suggested;
  const news = isNews(lesson);
  const shown = (number: number): string => `${formatNumber(inUnit(number), decimals)}${unit === '\u00b0' ? '' : ' '}${unit}`;
  return (
    <li data-lesson={lesson.kind} data-value={value.toFixed(2)}>
      <div class="lesson-words">
        <span class="lesson-title">{title}</span>
        <span>
          <strong>{shown(value)}</strong> {'\u00b1'} {formatNumber(inUnit(sigma), unit === 's' ? 2 : 1)}, from {count} {FROM[lesson.from]}.{' '}
          {news ? `Set up with ${shown(lesson.current)}.` : `As set up (${shown(lesson.current)}).`}
        </span>
        <LessonTrend kind={lesson.kind} decimals={decimals} unit={ownUnit} />
      </div>
      {real && (
        <button type="button" class={news ? 'main' : ''} onClick={() => void desk.carry(lesson)} title={`Changes ${into}`}>
          Use it
        </button>
      )}
    </li>
  );
}
