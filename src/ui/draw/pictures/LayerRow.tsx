import type { VNode } from 'preact';
import { celsiusFromKelvin } from '../../../core/earth/standard-atmosphere.ts';
import { windFromVector } from '../../../core/earth/wind-vector.ts';
import type { CloudStanding, OxygenNeed } from '../../../core/place/air-rules.ts';
import type { LayerChoice } from '../../../core/place/layer-choice.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { formatBearing } from '../../../core/text/number-formats.ts';
import { minutesRange } from '../../words/reads-text.ts';
import { useUnitText } from '../../fields/units-context.ts';
import type { UnitText } from '../../../core/text/unit-text.ts';

export interface LayerRowProps {
  readonly layer: LayerChoice;
  /** Whether the job is set to it. */
  readonly taken: boolean;
  readonly onTake: () => void;
}

const CLOUD: Readonly<Record<CloudStanding, string>> = {
  clear: 'clear of cloud',
  'partly hidden': 'cloud hides part of it',
  'hidden from below': 'cloud below hides it',
  'unknown top': 'cloud top not known',
  'too near': 'too near cloud',
  'in cloud': 'in cloud',
  'not checked': 'cloud not looked at',
};
/** By day, 14 CFR 91.211(a) and AIM 8-1-2; see the checks. */
const OXYGEN: Readonly<Record<OxygenNeed, string>> = {
  none: 'no oxygen asked for',
  advised: 'oxygen advised',
  required: 'oxygen required',
  'required throughout': 'oxygen required throughout',
};

/** One layer of the ranking, in three rows: its numbers, its air, and what speaks for and against it. */
export function LayerRow({ layer, taken, onTake }: LayerRowProps): VNode {
  const units = useUnitText();
  const { heightMetres, wind, window, readable, standing, reasons } = layer;
  return (
    <tbody class={`layer ${standing}`}>
      <tr>
        <th scope="rowgroup" rowSpan={3}>
          <button type="button" aria-pressed={taken} onClick={onTake}>
            {units.height.text(heightMetres)}
          </button>
          {taken && <span class="small">in use</span>}
        </th>
        <td>{windText(wind, units)}</td>
        <td class="number">
          {window === null || window.until.highSeconds <= window.fromSeconds
            ? '\u2013'
            : minutesRange(window.until.lowSeconds - window.fromSeconds, window.until.highSeconds - window.fromSeconds)}
        </td>
        <td class="number">{readable === null ? '\u2013' : units.crowdDistance.text(readable.radiusMetres)}</td>
      </tr>
      <tr>
        <td class="air" colSpan={3}>
          {airText(layer, units)}
        </td>
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

function windText(wind: LayerChoice['wind'], units: UnitText): string {
  if (!wind.ok) return 'not known';
  if (!wind.directionKnown) return 'light, variable';
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind.wind);
  return `${formatBearing(degreesFromRadians(fromRadians))}\u00b0 ${units.speed.text(speedMetresPerSecond)}`;
}

/** Shear, temperature, cloud and oxygen of a layer. */
function airText({ shear, temperatureKelvin, temperatureSource, cloud, oxygen }: LayerChoice, units: UnitText): string {
  return [
    shear === null ? 'shear not known' : `shear ${units.shear(Math.hypot(shear.eastPerSecond, shear.northPerSecond))}`,
    `${units.temperature.text(celsiusFromKelvin(temperatureKelvin))}${temperatureSource === 'winds' ? '' : ' in standard air'}`,
    CLOUD[cloud],
    OXYGEN[oxygen],
  ].join(' \u00b7 ');
}
