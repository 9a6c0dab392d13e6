import type { Cues } from '../../core/guidance/cues.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { ownText } from './glance.ts';

/** A height to hold: `10,000 ft`, or in the unit that is chosen once it is known; empty without one. */
export function heightFigures(heightFeet: number | null, units: UnitText | null = null): string {
  return heightFeet === null ? '' : ownText(units?.height, heightFeet, 'ft');
}

/** Off the timetable by no more than this is on time. */
const ON_TIME_SECONDS = 1;

/** How a ship keeps the timetable: `on time`, `3 s late`, `2 s early`; from its circle `12 s late at best`. Empty when not known. */
export function lateWords({ lateSeconds, part }: Pick<Cues, 'lateSeconds' | 'part'>): string {
  if (lateSeconds === null) return '';
  const atBest = part === 'joining' || part === 'circling' ? ' at best' : '';
  if (Math.abs(lateSeconds) <= ON_TIME_SECONDS) return 'on time';
  return lateSeconds > 0 ? `${Math.round(lateSeconds)} s late${atBest}` : `${Math.round(-lateSeconds)} s early`;
}
