import type { LetterScore } from '../../core/debrief/letter-score.ts';
import type { StrokeScore } from '../../core/debrief/stroke-score.ts';
import { formatNumber } from '../../core/text/number-formats.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

/** Seconds with one decimal and their unit: `1.2 s`. */
export function secondsWords(seconds: number): string {
  return `${formatNumber(seconds, 1)} s`;
}

/** Late or early, in words; `on time` within a tenth. */
export function lateWords(seconds: number | null): string {
  if (seconds === null) return '\u2013';
  if (Math.abs(seconds) < 0.05) return 'on time';
  return `${formatNumber(Math.abs(seconds), 1)} s ${seconds > 0 ? 'late' : 'early'}`;
}

/** How the end of a stroke's smoke came, in words. */
export function longWords(seconds: number | null): string {
  if (seconds === null) return '\u2013';
  if (Math.abs(seconds) < 0.05) return 'on the end';
  return `${formatNumber(Math.abs(seconds), 1)} s ${seconds > 0 ? 'long' : 'short'}`;
}

/** How a stroke lay against its line: its scatter, and to which side when it leaned. */
export function acrossWords({ crossTrackRmsMetres, crossTrackMeanMetres }: StrokeScore, { height }: UnitText): string {
  if (crossTrackRmsMetres === null || crossTrackMeanMetres === null) return 'no smoke';
  const leaned = Math.abs(crossTrackMeanMetres) > 0.6 * crossTrackRmsMetres && Math.abs(crossTrackMeanMetres) > 3;
  const off = height.text(crossTrackRmsMetres);
  return leaned ? `${off}, ${crossTrackMeanMetres > 0 ? 'right' : 'left'}` : off;
}

/** What a letter's shape is worth to a reader, by its error over its height; without one of its strokes it is broken. Common practice, no source. */
export function shapeWords({ shapeErrorHeights, coverage, strokesMissing }: LetterScore): string {
  if (shapeErrorHeights === null) return 'not written';
  if (coverage < 0.6 || strokesMissing > 0) return 'broken';
  if (shapeErrorHeights < 0.01) return 'clean';
  if (shapeErrorHeights < 0.025) return 'good';
  if (shapeErrorHeights < 0.05) return 'shaky';
  return 'bent';
}
