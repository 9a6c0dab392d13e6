import type { VNode } from 'preact';
import { isNews, type Lesson } from '../../core/debrief/lessons.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import { useDebrief } from './debrief-context.ts';

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
  spreading: { title: 'Smoke spreads', unit: 'm\u00b2/s', decimals: 0, into: 'the smoke\u2019s spreading, for every job' },
};

const FROM: Readonly<Record<Lesson['from'], string>> = {
  'switch-marks': 'marks of the switch',
  turns: 'turns',
  'seen-smoke': 'times of smoke marked by hand',
  ratings: 'letters whose end was rated',
  track: 'turns of the track',
};

/** What the flight teaches, how sure it is, and the touch that carries it over. */
export function Lessons(): VNode {
  const { desk } = useDebrief();
  const lessons = desk.lessons.value;
  if (lessons.length === 0)
    return <p class="quiet">Nothing yet. Lessons come from the log once it has been flown again, from smoke marked by hand, and from what the ground rated.</p>;
  return (
    <ul class="lessons">
      {lessons.map((lesson) => (
        <LessonLine key={lesson.kind} lesson={lesson} />
      ))}
    </ul>
  );
}

function LessonLine({ lesson }: { readonly lesson: Lesson }): VNode {
  const { desk } = useDebrief();
  const { title, unit, decimals, into } = WORDS[lesson.kind];
  const { value, sigma, count } = lesson.suggested;
  const news = isNews(lesson);
  const shown = (number: number): string => `${formatNumber(number, decimals)}${unit === '\u00b0' ? '' : ' '}${unit}`;
  return (
    <li data-lesson={lesson.kind} data-value={value.toFixed(2)}>
      <div class="lesson-words">
        <span class="lesson-title">{title}</span>
        <span>
          <strong>{shown(value)}</strong> {'\u00b1'} {formatNumber(sigma, unit === 's' ? 2 : 1)}, from {count} {FROM[lesson.from]}.{' '}
          {news ? `Set up with ${shown(lesson.current)}.` : `As set up (${shown(lesson.current)}).`}
        </span>
      </div>
      <button type="button" class={news ? 'main' : ''} onClick={() => void desk.carry(lesson)} title={`Changes ${into}`}>
        Use it
      </button>
    </li>
  );
}
