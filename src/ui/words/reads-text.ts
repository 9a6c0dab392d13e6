import { formatDuration, formatNumber } from '../../core/text/number-formats.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { askewWords } from './reads.ts';

/** For machines and tests, in whole seconds since the first smoke: whole from, soonest, likely and latest end, level until. */
export function readsValue({ fromSeconds, until, stands }: ReadingWindow): string {
  return [fromSeconds, until.lowSeconds, until.likelySeconds, until.highSeconds, stands?.untilSeconds ?? 0].map(Math.round).join('/');
}

/** Whole minutes of reading, as every screen and sheet tells them: never more than is reckoned, since a client holds us to them. */
export function wholeMinutes(seconds: number): number {
  return Math.max(0, Math.floor(seconds / 60));
}

/** `12 to 33`, in minutes. */
export function minutesRange(lowSeconds: number, highSeconds: number): string {
  return `${formatNumber(wholeMinutes(lowSeconds))} to ${formatNumber(wholeMinutes(highSeconds))}`;
}

/** `for 12 to 33 min` once the whole text stands, or that it never does. */
export function readsFor({ fromSeconds, until }: Pick<ReadingWindow, 'fromSeconds' | 'until'>): string {
  if (until.highSeconds <= fromSeconds) return 'never as a whole';
  if (until.likelySeconds > fromSeconds) return `for ${minutesRange(until.lowSeconds - fromSeconds, until.highSeconds - fromSeconds)} min`;
  const most = wholeMinutes(until.highSeconds - fromSeconds);
  return `perhaps, for ${most < 1 ? 'less than a minute' : `${formatNumber(most)} min at most`}`;
}

/** How long a planned text reads, in one line: `from 5:20 for 12 to 33 min, askew from 10:57` after the first smoke, or that it never does. */
export function readsText(window: ReadingWindow): string {
  const { fromSeconds, until } = window;
  if (until.highSeconds <= fromSeconds) return readsFor(window);
  const askew = askewWords(window, formatDuration);
  return `${until.likelySeconds > fromSeconds ? `from ${formatDuration(fromSeconds)} ` : ''}${readsFor(window)}${askew === '' ? '' : `, ${askew}`}`;
}

/** How long the whole text reads once it stands, for a client: as a range in whole minutes, and how long of that it stands level. */
export function lastsText({ fromSeconds, until, stands }: ReadingWindow): string {
  const [least, most] = [wholeMinutes(until.lowSeconds - fromSeconds), wholeMinutes(until.highSeconds - fromSeconds)];
  // The longest is what quiet air gives already.
  const doubt = 'the less the gustier the air; nobody can promise it';
  const likely = wholeMinutes(until.likelySeconds - fromSeconds);
  if (most < 1) return `the first letters are likely gone before the last is written; ${doubt}`;
  const level = wholeMinutes((stands?.untilSeconds ?? 0) - fromSeconds);
  const turned =
    level >= most
      ? ''
      : `. The wind turns it meanwhile: it stands level for ${level < 1 ? 'less than a minute' : `about ${formatNumber(level)}`} of them, then it leans`;
  return `the whole text reads for ${
    least < 1
      ? `up to ${formatNumber(most)} minutes from then on, likely for ${likely < 1 ? 'less than one' : `about ${formatNumber(likely)}`}`
      : `about ${minutesRange(60 * least, 60 * most)} minutes from then on`
  }, ${doubt}${turned}`;
}
