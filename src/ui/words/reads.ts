import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import type { ReadingWindow, SecondsRange } from '../../core/sky/reading-window.ts';

/** For machines and tests, in whole seconds since the first smoke: whole from, soonest, likely and latest end, level until. */
export function readsValue({ fromSeconds, until, stands }: ReadingWindow): string {
  return [fromSeconds, until.lowSeconds, until.likelySeconds, until.highSeconds, stands?.untilSeconds ?? 0].map(Math.round).join('/');
}

/** How long a planned text reads, in one line: `from 5:20 for 12 to 33 min, askew from 10:57` after the first smoke, or that it never does. */
export function readsText(window: ReadingWindow): string {
  const { fromSeconds, until } = window;
  const minutes = (seconds: number): string => formatNumber(Math.max(0, (seconds - fromSeconds) / 60));
  const askew = askewWords(window, formatDuration);
  const then = askew === '' ? '' : `, ${askew}`;
  if (until.highSeconds <= fromSeconds) return 'never as a whole';
  if (until.likelySeconds <= fromSeconds) return `perhaps, for ${minutes(until.highSeconds)} min at most${then}`;
  return `from ${formatDuration(fromSeconds)} for ${minutes(until.lowSeconds)} to ${minutes(until.highSeconds)} min${then}`;
}

/** From when until when something reads: `13:30 to 13:31, perhaps 14:07 EDT`; without its beginning when that is null. */
export function readsWords(fromSeconds: number | null, until: SecondsRange, at: (seconds: number) => string, zone: string): string {
  const low = at(Math.max(fromSeconds ?? until.lowSeconds, until.lowSeconds));
  const high = at(until.highSeconds);
  return `${fromSeconds === null ? 'until ' : `${at(fromSeconds)} to `}${low}${high === low ? '' : `, perhaps ${high}`} ${zone}`;
}

/**
 * When the wind has turned it askew for a crowd that faces it, leaning by more than 15 degrees: `askew from 13:37`, `askew until
 * 13:31 and from 13:37`, `askew all the time`; of a text that sinks `too low from 13:37`. Empty when its smoke ends first.
 */
export function askewWords({ fromSeconds, until, stands }: Pick<ReadingWindow, 'fromSeconds' | 'until' | 'stands'>, at: (seconds: number) => string): string {
  if (stands === null) return 'askew all the time';
  const before = stands.fromSeconds > fromSeconds ? `until ${at(stands.fromSeconds)}` : '';
  const after = stands.endedBy === null || stands.untilSeconds >= until.highSeconds ? '' : `from ${at(stands.untilSeconds)}`;
  const when = [before, after].filter((each) => each !== '').join(' and ');
  return when === '' ? '' : `${stands.endedBy === 'low' ? 'too low' : 'askew'} ${when}`;
}
