import type { VNode } from 'preact';
import { windFromVector } from '../../core/earth/wind-vector.ts';
import type { LayerChoice } from '../../core/sky/layer-choice.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { feetFromMetres, knotsFromMetresPerSecond, statuteMilesFromMetres } from '../../core/units/quantity.ts';
import { formatBearing, formatNumber } from '../parts/number-formats.ts';

export interface LayerRowProps {
  readonly layer: LayerChoice;
  /** Whether the job is set to it. */
  readonly taken: boolean;
  readonly onTake: () => void;
}

/** One layer of the ranking, in two rows: its numbers, and what speaks for and against it. */
export function LayerRow({ layer, taken, onTake }: LayerRowProps): VNode {
  const { heightMetres, wind, window, readable, standing, reasons } = layer;
  return (
    <tbody class={`layer ${standing}`}>
      <tr>
        <th scope="rowgroup" rowSpan={2}>
          <button type="button" aria-pressed={taken} onClick={onTake}>
            {formatNumber(feetFromMetres(heightMetres))} ft
          </button>
        </th>
        <td>{windText(wind)}</td>
        <td class="number">{window === null || window.until.highSeconds <= window.fromSeconds ? '\u2013' : minutes(window)}</td>
        <td class="number">{readable === null ? '\u2013' : `${formatNumber(statuteMilesFromMetres(readable.radiusMetres))} mi`}</td>
      </tr>
      <tr>
        <td class="why" colSpan={3}>
          {standing !== 'usable' && <strong>{standing === 'poor' ? 'Poor' : 'Not usable'}: </strong>}
          {reasons.length === 0 ? 'nothing to say against it' : reasons.join(', ')}
        </td>
      </tr>
    </tbody>
  );
}

function windText(wind: LayerChoice['wind']): string {
  if (!wind.ok) return 'not known';
  if (!wind.directionKnown) return 'light, variable';
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind.wind);
  return `${formatBearing(degreesFromRadians(fromRadians))}\u00b0 ${formatNumber(knotsFromMetresPerSecond(speedMetresPerSecond))} kt`;
}

/** For how long the whole text stands, soonest to latest. */
function minutes({ fromSeconds, until }: NonNullable<LayerChoice['window']>): string {
  const span = (untilSeconds: number): string => formatNumber(Math.max(0, untilSeconds - fromSeconds) / 60);
  return `${span(until.lowSeconds)} to ${span(until.highSeconds)}`;
}
