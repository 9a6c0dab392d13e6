import type { GroundCall, LetterRating, ShipState } from '../../core/wire/link-messages.ts';
import type { LetterStage } from '../../core/sky/look-plan.ts';
import type { ShipMark } from '../../app/ground/seen-sky.ts';
import { formatDuration } from '../../core/text/number-formats.ts';

const POINTS = [
  'north',
  'north-north-east',
  'north-east',
  'east-north-east',
  'east',
  'east-south-east',
  'south-east',
  'south-south-east',
  'south',
  'south-south-west',
  'south-west',
  'west-south-west',
  'west',
  'west-north-west',
  'north-west',
  'north-north-west',
] as const;

/** A bearing in words: `compassWords(337.5)` is `north-north-west`. */
export function compassWords(bearingDegrees: number): string {
  return POINTS[((Math.round(bearingDegrees / 22.5) % 16) + 16) % 16] ?? 'north';
}

/** An elevation in fists at arm's length, about ten degrees each (common practice, no source): `3½ fists up`. */
export function fistWords(elevationDegrees: number): string {
  if (elevationDegrees <= 2) return 'at the horizon';
  if (elevationDegrees > 75) return 'nearly overhead';
  const halves = Math.max(1, Math.round(elevationDegrees / 5));
  const whole = Math.floor(halves / 2);
  const text = `${whole === 0 ? '' : whole}${halves % 2 === 1 ? '\u00bd' : ''}`;
  return `${text} ${halves <= 2 ? 'fist' : 'fists'} up`;
}

/** What follows a text's height: `, 3½ fists up at arm’s length`, or that it is not to be seen. */
export function seenWords(elevationDegrees: number): string {
  return elevationDegrees < 0 ? ', not to be seen from here' : `, ${fistWords(elevationDegrees)} at arm’s length`;
}

export const STAGE_WORDS: Readonly<Record<LetterStage, string>> = {
  'to come': 'to come',
  'being written': 'being written',
  stands: 'stands',
  fading: 'may be going',
  gone: 'gone',
};

export const RATING_WORDS: Readonly<Record<LetterRating, string>> = { reads: 'Reads', weak: 'Weak', broken: 'Broken', 'not-seen': 'Not seen' };

export const CALL_WORDS: Readonly<Record<GroundCall, string>> = {
  'reads-well': 'Reads well',
  'letter-broken': 'Letter broken',
  'cloud-coming': 'Cloud coming',
  traffic: 'Traffic',
  stop: 'Stop',
};

/** With which wind the smoke drifts in the pictures. */
export const WIND_WORDS = { measured: 'the wind they measure', found: 'the wind found', forecast: 'the forecast' } as const;

/** What a ship does; one that knocked it off has finished as others have, and must not be taken for one that wrote its word. */
export function doingWords({ phase, character, smoke, strokeNumber, strokeCount }: ShipState, hasKnockedOff: boolean): string {
  if (phase === 'finished') return hasKnockedOff ? 'knocked off' : phase;
  if (phase === 'standby') return phase;
  return `${phase.replace('-', ' ')}${character === null ? '' : ` ${character}`}${smoke === 'on' ? ', smoke on' : ''}, stroke ${strokeNumber} of ${strokeCount}`;
}

/** Why figures were refused, for as long as they stand in the field as they were. */
export function stillRefused(refused: { readonly heard: string; readonly reason: string } | null, heard: string): string | null {
  return refused?.heard === heard ? refused.reason : null;
}

/** How old a ship's place is, in words that never call an old one live. */
export function freshnessWords(fresh: ShipMark['fresh']): string {
  switch (fresh.kind) {
    case 'live':
      return `live, ${fresh.ageSeconds.toFixed(0)} s`;
    case 'ageing':
      return `${fresh.ageSeconds.toFixed(0)} s old`;
    case 'stale':
      return `last known ${formatDuration(fresh.ageSeconds)} ago`;
    case 'lost':
      return fresh.ageSeconds === null ? 'LINK LOST' : `LINK LOST, last known ${formatDuration(fresh.ageSeconds)} ago`;
    case 'unknown':
      return 'last known, age unknown';
    case 'no-position':
      return 'no position';
    case 'ended':
      return 'ended';
  }
}

const DAY_SECONDS = 86_400;

/** A wait, `12:40`; in days from a day on: `203 days`. */
export function waitWords(seconds: number): string {
  if (seconds < DAY_SECONDS) return formatDuration(seconds);
  const days = Math.floor(seconds / DAY_SECONDS);
  return `${days} ${days === 1 ? 'day' : 'days'}`;
}

/** Time to or since the first smoke: `−12:40`, `+3:12`; in days and hours from a day on: `−203 d 13 h`. */
export function countWords(sinceDatumSeconds: number): string {
  if (Math.abs(sinceDatumSeconds) >= DAY_SECONDS) {
    const hours = Math.floor(Math.abs(sinceDatumSeconds) / 3600);
    return `${sinceDatumSeconds < 0 ? '\u2212' : '+'}${Math.floor(hours / 24)}\u00a0d ${hours % 24}\u00a0h`;
  }
  const seconds = sinceDatumSeconds < 0 ? Math.ceil(sinceDatumSeconds) : Math.floor(sinceDatumSeconds);
  return seconds < 0 ? formatDuration(seconds) : `+${formatDuration(seconds)}`;
}

/** A wait of a day and more is told by its date. */
export function isFarOff(sinceDatumSeconds: number): boolean {
  return sinceDatumSeconds <= -DAY_SECONDS;
}

const LONGEST_HACK_SECONDS = 5_999;

/** A called wait as it is typed, minutes and seconds or minutes alone, up to 99:59: `3:00` and `3` are 180; null for anything else. */
export function secondsFromTyped(typed: string): number | null {
  const match = /^(\d{1,2})(?:[:.'\s](\d{2}))?$/.exec(typed.trim());
  if (match === null) return null;
  const [minutes, seconds] = [Number(match[1]), Number(match[2] ?? 0)];
  const total = 60 * minutes + seconds;
  return seconds < 60 && total > 0 && total <= LONGEST_HACK_SECONDS ? total : null;
}
