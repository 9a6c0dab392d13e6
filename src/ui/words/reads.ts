import type { ReadingWindow, SecondsRange } from '../../core/sky/reading-window.ts';

/** From when until when something reads: `13:30 to 13:31, perhaps 14:07 EDT`; without its beginning when that is null. */
export function readsWords(fromSeconds: number | null, until: SecondsRange, at: (seconds: number) => string, zone: string): string {
  const lowSeconds = Math.max(fromSeconds ?? -Infinity, until.lowSeconds);
  const low = at(lowSeconds);
  const high = at(Math.max(lowSeconds, until.highSeconds));
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
