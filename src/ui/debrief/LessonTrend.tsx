import type { VNode } from 'preact';
import { lessonOwner } from '../../app/kept/learnt-lessons.ts';
import type { Lesson } from '../../core/debrief/lessons/lessons.ts';
import { weighLessons } from '../../core/debrief/lessons/weigh-lessons.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import { useDebrief } from './debrief-context.ts';
import { useFieldUnit } from '../fields/units-context.ts';

export interface LessonTrendProps {
  readonly kind: Lesson['kind'];
  readonly decimals: number;
  readonly unit: string;
}

const SIZE = { widthPixels: 160, heightPixels: 44, marginPixels: 6 };

/** What earlier flights taught of the same thing, oldest first, each with twice its error; nothing before two. */
export function LessonTrend({ kind, decimals, unit: ownUnit }: LessonTrendProps): VNode | null {
  const { unit, shown: inUnit } = useFieldUnit(ownUnit);
  const { desk } = useDebrief();
  const ship = desk.job.value?.ships[desk.ships.value[0]?.log.setup.shipIndex ?? 0];
  if (ship === undefined) return null;
  const owner = lessonOwner(kind, ship);
  const learnt = desk.learnt.value.filter((each) => each.kind === kind && each.owner === owner);
  const weighed = weighLessons(learnt);
  if (weighed === null || learnt.length < 2) return null;
  const lows = learnt.map(({ value, sigma }) => value - 2 * sigma);
  const highs = learnt.map(({ value, sigma }) => value + 2 * sigma);
  const [low, high] = [Math.min(...lows), Math.max(...highs)];
  const { widthPixels, heightPixels, marginPixels } = SIZE;
  const x = (index: number): number => marginPixels + (index * (widthPixels - 2 * marginPixels)) / (learnt.length - 1);
  const y = (value: number): number => heightPixels - marginPixels - ((value - low) / Math.max(1e-9, high - low)) * (heightPixels - 2 * marginPixels);
  const said = `${learnt.length} flights: ${learnt.map(({ value }) => formatNumber(inUnit(value), decimals)).join(', ')} ${unit}; weighed ${formatNumber(inUnit(weighed.value), decimals)}`;
  return (
    <svg
      class="lesson-trend"
      width={widthPixels}
      height={heightPixels}
      viewBox={`0 0 ${widthPixels} ${heightPixels}`}
      role="img"
      aria-label={said}
      data-flights={learnt.length}
    >
      <path class="weighed" d={`M0 ${y(weighed.value).toFixed(1)}H${widthPixels}`} />
      {learnt.map(({ id, value, sigma }, index) => (
        <g key={id}>
          <path d={`M${x(index).toFixed(1)} ${y(value - 2 * sigma).toFixed(1)}V${y(value + 2 * sigma).toFixed(1)}`} />
          <circle cx={x(index)} cy={y(value)} r="2.5" />
        </g>
      ))}
    </svg>
  );
}
