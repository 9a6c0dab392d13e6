import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';

/** For machines and tests, in whole seconds since the first smoke: whole from, then soonest, likely and latest end. */
export function readsValue({ fromSeconds, until }: ReadingWindow): string {
  return [fromSeconds, until.lowSeconds, until.likelySeconds, until.highSeconds].map(Math.round).join('/');
}

/** How long a planned text reads, in one line: `from 5:20 for 12 to 33 min` after the first smoke, or that it never does. */
export function readsText({ fromSeconds, until }: ReadingWindow): string {
  const minutes = (seconds: number): string => formatNumber(Math.max(0, (seconds - fromSeconds) / 60));
  if (until.highSeconds <= fromSeconds) return 'never as a whole';
  if (until.likelySeconds <= fromSeconds) return `perhaps, for ${minutes(until.highSeconds)} min at most`;
  return `from ${formatDuration(fromSeconds)} for ${minutes(until.lowSeconds)} to ${minutes(until.highSeconds)} min`;
}
