import { madeOnce } from '../../core/text/made-once.ts';

/**
 * Local times of a place, by the platform's own table of zones. Written as `2026-07-18T15:30`, the form that
 * `<input type="datetime-local">` speaks.
 */

/** The local date and time of an instant, to the minute, at a place; null for a zone nobody knows or no instant. */
export function localTextFromInstant(epochMilliseconds: number, timeZone: string): string | null {
  const offset = zoneOffsetMilliseconds(epochMilliseconds, timeZone);
  if (offset === null) return null;
  return new Date(epochMilliseconds + offset).toISOString().slice(0, 16);
}

/**
 * The instant of a local date and time; the inverse of {@link localTextFromInstant}. Of an hour that clocks live
 * twice the earlier is meant; a time that clocks leap over is read with the offset before the leap.
 */
export function instantFromLocalText(localText: string, timeZone: string): number | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})/.exec(localText);
  if (match === null) return null;
  const asUtc = Date.parse(`${localText.slice(0, 16)}:00Z`);
  if (!Number.isFinite(asUtc)) return null;
  const DAY = 86_400_000;
  const before = zoneOffsetMilliseconds(asUtc - DAY, timeZone);
  const after = zoneOffsetMilliseconds(asUtc + DAY, timeZone);
  if (before === null || after === null) return null;
  for (const offset of [Math.max(before, after), Math.min(before, after)]) {
    if (zoneOffsetMilliseconds(asUtc - offset, timeZone) === offset) return asUtc - offset;
  }
  return asUtc - before;
}

/** An instant as RFC 3339 in UTC, to the second: `2026-07-18T13:30:00Z`. */
export function utcText(epochMilliseconds: number): string {
  return `${new Date(epochMilliseconds).toISOString().slice(0, 19)}Z`;
}

/** One for each zone: to make one takes many times as long as to ask it. Throws for a zone nobody knows. */
const formatOf = madeOnce(
  (timeZone: string) =>
    new Intl.DateTimeFormat('en-US', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
      era: 'short',
    }),
);

/** How far a place's clocks are ahead of UTC at an instant; null for a zone nobody knows or no instant. */
export function zoneOffsetMilliseconds(epochMilliseconds: number, timeZone: string): number | null {
  if (!Number.isFinite(epochMilliseconds)) return null;
  try {
    const parts = formatOf(timeZone).formatToParts(epochMilliseconds);
    const read = (type: string): number => Number(parts.find((part) => part.type === type)?.value);
    const local = Date.UTC(read('year'), read('month') - 1, read('day'), read('hour'), read('minute'), read('second'));
    return Number.isFinite(local) ? local - Math.floor(epochMilliseconds / 1000) * 1000 : null;
  } catch {
    return null;
  }
}
