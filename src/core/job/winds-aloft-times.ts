import { civilFromDays, daysFromCivil } from '../text/utc.ts';
import type { BulletinTime, WindsAloftBulletin } from './winds-aloft.ts';

const MILLISECONDS_PER_MINUTE = 60_000;
const MILLISECONDS_PER_DAY = 86_400_000;

/**
 * The instant of a bulletin's time, which names no month: the one nearest to `nearMilliseconds`.
 * Day 31 near 1 March is 31 January, never 3 March.
 */
export function bulletinMilliseconds(time: BulletinTime, nearMilliseconds: number): number {
  if (!Number.isFinite(nearMilliseconds)) throw new RangeError(`nearMilliseconds must be finite, not ${nearMilliseconds}`);
  const near = civilFromDays(Math.floor(nearMilliseconds / MILLISECONDS_PER_DAY));
  // Two months on either side hold every day of the month at least once.
  const candidates = [-2, -1, 0, 1, 2]
    .map((later) => near.year * 12 + near.month - 1 + later)
    .map((months) => daysFromCivil(Math.floor(months / 12), (months % 12) + 1, time.dayOfMonth))
    .filter((days) => civilFromDays(days).day === time.dayOfMonth)
    .map((days) => days * MILLISECONDS_PER_DAY + time.minuteOfDay * MILLISECONDS_PER_MINUTE);
  return candidates.reduce((best, each) => (Math.abs(each - nearMilliseconds) < Math.abs(best - nearMilliseconds) ? each : best));
}

/** The period a bulletin is meant for, as instants around its valid time; null when the heading names none. */
export function bulletinUse(
  bulletin: WindsAloftBulletin,
  nearMilliseconds: number,
): { readonly fromMilliseconds: number; readonly toMilliseconds: number } | null {
  if (bulletin.valid === null || bulletin.use === null) return null;
  const validMilliseconds = bulletinMilliseconds(bulletin.valid, nearMilliseconds);
  const beforeMinutes = positiveMinutes(bulletin.valid.minuteOfDay - bulletin.use.fromMinuteOfDay);
  const afterMinutes = positiveMinutes(bulletin.use.toMinuteOfDay - bulletin.valid.minuteOfDay);
  return {
    fromMilliseconds: validMilliseconds - beforeMinutes * MILLISECONDS_PER_MINUTE,
    toMilliseconds: validMilliseconds + afterMinutes * MILLISECONDS_PER_MINUTE,
  };
}

function positiveMinutes(minutes: number): number {
  const day = MILLISECONDS_PER_DAY / MILLISECONDS_PER_MINUTE;
  return ((minutes % day) + day) % day;
}
