import type { VNode } from 'preact';
import type { Check, CheckStatus, CheckValue } from '../../../core/checks/check.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { formatDuration, formatNumber } from '../../../core/text/number-formats.ts';
import { clockText } from '../../words/clock.ts';
import { useUnitText } from '../../fields/units-context.ts';
import type { UnitText } from '../../../core/text/unit-text.ts';

export interface CheckRowProps {
  readonly check: Check;
  /** Of the site, for instants. */
  readonly timeZone: string;
}

const MARKS: Readonly<Record<CheckStatus, string>> = { stop: '\u2716', caution: '!', 'not-checked': '?', ok: '\u2713' };
const WORDS: Readonly<Record<CheckStatus, string>> = { stop: 'no-go', caution: 'caution', 'not-checked': 'not checked', ok: 'within its limit' };

/** One line of the go/no-go, by word, shape and number. */
export function CheckRow({ check, timeZone }: CheckRowProps): VNode {
  const units = useUnitText();
  const { id, title, status, value, source, advice } = check;
  return (
    <li class={`check ${status}`} data-check={id} data-status={status}>
      <span class="check-mark" role="img" aria-label={WORDS[status]}>
        {MARKS[status]}
      </span>
      <span class="check-title">{title}</span>
      {value !== null && (
        <span class="check-value">
          {checkText(value, timeZone, units)}
          {check.limit !== null && <span class="quiet">, {limitText(check, timeZone, units)}</span>}
        </span>
      )}
      <span class="check-advice small">
        {advice} <span class="quiet">{source}</span>
      </span>
    </li>
  );
}

/** A limit with its side: `at most 25 kt`, `not before 05:21`; empty where there is none. */
export function limitText({ limit, limitIs }: Pick<Check, 'limit' | 'limitIs'>, timeZone: string, units: UnitText): string {
  if (limit === null || limitIs === null) return '';
  const isInstant = limit.kind === 'instant';
  const side = { least: isInstant ? 'not before' : 'at least', most: isInstant ? 'not after' : 'at most', wanted: 'wanted:' }[limitIs];
  return `${side} ${checkText(limit, timeZone, units)}`;
}

/** A checked value in the pilot's units. */
export function checkText(value: CheckValue, timeZone: string, units: UnitText): string {
  switch (value.kind) {
    case 'height':
      return units.height.text(value.metres);
    case 'distance':
      // The rules give distances under a mile as heights are given.
      return value.metres < 1600 ? units.height.text(value.metres) : units.crowdDistance.text(value.metres, 1);
    case 'speed':
      return units.speed.text(value.metresPerSecond);
    case 'angle':
      return `${formatNumber(degreesFromRadians(value.radians))}\u00b0`;
    case 'duration':
      return formatDuration(value.seconds);
    case 'instant':
      return clockText(value.epochMilliseconds, timeZone);
    case 'mass':
      return units.mass.text(value.kilograms);
    case 'volume':
      return units.volume.text(value.litres, 1);
    case 'shear':
      return units.shear(value.perSecond);
    case 'share':
      return `${formatNumber(100 * value.fraction)} %`;
    case 'words':
      return value.words;
  }
}
