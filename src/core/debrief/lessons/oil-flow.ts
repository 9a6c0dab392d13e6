import type { Lesson } from './lessons.ts';
import type { ShipDebrief } from '../ship-debrief.ts';

/** A tank is read to about this much; common practice, no source. */
const TANK_SIGMA_POUNDS = 5;

/**
 * How much oil a minute of smoke took, from what was in the tank before and after. 400 lb less 130 over 6 minutes:
 * 45 lb a minute. Null where no smoke was flown or the tank gained.
 *
 * @param currentPoundsPerMinute as the ship is set up
 */
export function oilFlowLesson(
  { intervals }: Pick<ShipDebrief, 'intervals'>,
  carriedPounds: number,
  leftPounds: number,
  currentPoundsPerMinute: number,
): Lesson | null {
  const minutes = intervals.reduce((sum, { onSeconds, offSeconds }) => sum + offSeconds - onSeconds, 0) / 60;
  const burntPounds = carriedPounds - leftPounds;
  if (!(minutes > 0.5 && burntPounds > 0)) return null;
  return {
    kind: 'oil-flow',
    suggested: { value: burntPounds / minutes, sigma: (TANK_SIGMA_POUNDS * Math.SQRT2) / minutes, count: 1 },
    current: currentPoundsPerMinute,
    from: 'tank',
  };
}
