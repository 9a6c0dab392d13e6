import type { VNode } from 'preact';
import type { FacingCell } from '../../../core/place/facing-choice.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { formatBearing, formatNumber } from '../../../core/text/number-formats.ts';
import { clockText } from '../../words/clock.ts';

export interface DayCellTextProps {
  readonly cell: FacingCell;
  readonly timeZone: string;
}

/** One cell of the day in words. */
export function DayCellText({ cell, timeZone }: DayCellTextProps): VNode {
  const clock = clockText(cell.readMilliseconds, timeZone);
  return (
    <span>
      <strong>
        {clock}, facing {formatBearing(degreesFromRadians(cell.facingRadians))}
        {'\u00b0'}
      </strong>{' '}
      {said(cell).join(', ')}
    </span>
  );
}

function said({ dark, sunTooNear, sunMarginRadians, glareShare, offWindRadians, turnRadians, score }: FacingCell): string[] {
  if (dark || sunMarginRadians === null) return ['too dark for some of it'];
  return [
    `sun ${formatNumber(degreesFromRadians(sunMarginRadians))}\u00b0 from the text${sunTooNear ? ': into the sun' : ''}`,
    glareShare > 0.02 ? `${formatNumber(100 * glareShare)} % of the smoke flown into a low sun` : 'no low sun ahead of the pilot',
    `${formatNumber(degreesFromRadians(offWindRadians))}\u00b0 off the wind`,
    ...(turnRadians === null ? [] : [turnRadians < 0.02 ? 'as the crowd faces' : `the crowd turns ${formatNumber(degreesFromRadians(turnRadians))}\u00b0`]),
    `${formatNumber(score)} of 100`,
  ];
}
