import type { VNode } from 'preact';
import type { Check, CheckStatus, CheckValue } from '../../../core/checks/check.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import {
  feetFromMetres,
  gallonsFromLitres,
  knotsFromMetresPerSecond,
  METRES_PER_FOOT,
  poundsFromKilograms,
  statuteMilesFromMetres,
} from '../../../core/units/quantity.ts';
import { formatDuration, formatNumber } from '../../../core/text/number-formats.ts';
import { clockText } from '../../words/clock.ts';

export interface CheckRowProps {
  readonly check: Check;
  /** Of the site, for instants. */
  readonly timeZone: string;
}

const MARKS: Readonly<Record<CheckStatus, string>> = { stop: '\u2716', caution: '!', 'not-checked': '?', ok: '\u2713' };
const WORDS: Readonly<Record<CheckStatus, string>> = { stop: 'no-go', caution: 'caution', 'not-checked': 'not checked', ok: 'within its limit' };

/** One line of the go/no-go, by word, shape and number. */
export function CheckRow({ check, timeZone }: CheckRowProps): VNode {
  const { id, title, status, value, source, advice } = check;
  return (
    <li class={`check ${status}`} data-check={id} data-status={status}>
      <span class="check-mark" role="img" aria-label={WORDS[status]}>
        {MARKS[status]}
      </span>
      <span class="check-title">{title}</span>
      {value !== null && (
        <span class="check-value">
          {checkText(value, timeZone)}
          {check.limit !== null && <span class="quiet">, {limitText(check, timeZone)}</span>}
        </span>
      )}
      <span class="check-advice small">
        {advice} <span class="quiet">{source}</span>
      </span>
    </li>
  );
}

/** A limit with its side: `at most 25 kt`, `not before 05:21`; empty where there is none. */
export function limitText({ limit, limitIs }: Pick<Check, 'limit' | 'limitIs'>, timeZone: string): string {
  if (limit === null || limitIs === null) return '';
  const isInstant = limit.kind === 'instant';
  const side = { least: isInstant ? 'not before' : 'at least', most: isInstant ? 'not after' : 'at most', wanted: 'wanted:' }[limitIs];
  return `${side} ${checkText(limit, timeZone)}`;
}

/** A checked value in the pilot's units. */
export function checkText(value: CheckValue, timeZone: string): string {
  switch (value.kind) {
    case 'height':
      return `${formatNumber(feetFromMetres(value.metres))} ft`;
    case 'distance':
      // The rules give distances under a mile in feet.
      return value.metres < 1600
        ? `${formatNumber(feetFromMetres(value.metres))} ft`
        : `${formatNumber(statuteMilesFromMetres(value.metres), 1)} statute miles`;
    case 'speed':
      return `${formatNumber(knotsFromMetresPerSecond(value.metresPerSecond))} kt`;
    case 'angle':
      return `${formatNumber(degreesFromRadians(value.radians))}\u00b0`;
    case 'duration':
      return formatDuration(value.seconds);
    case 'instant':
      return clockText(value.epochMilliseconds, timeZone);
    case 'mass':
      return `${formatNumber(poundsFromKilograms(value.kilograms))} lb`;
    case 'volume':
      return `${formatNumber(gallonsFromLitres(value.litres), 1)} gal`;
    case 'shear':
      return `${formatNumber(knotsFromMetresPerSecond(value.perSecond * METRES_PER_FOOT * 1000), 1)} kt per 1,000 ft`;
    case 'share':
      return `${formatNumber(100 * value.fraction)} %`;
    case 'words':
      return value.words;
  }
}
