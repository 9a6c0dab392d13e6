import type { VNode } from 'preact';
import { jobAir, missingWindWords } from '../../../core/job/job-air.ts';
import { celsiusFromKelvin } from '../../../core/earth/standard-atmosphere.ts';
import { windFromVector } from '../../../core/earth/wind-vector.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { feetFromMetres, knotsFromMetresPerSecond, METRES_PER_FOOT } from '../../../core/units/quantity.ts';
import { FigureRow } from '../../fields/FigureRow.tsx';
import { formatBearing, formatNumber } from '../../../core/text/number-formats.ts';
import { useDesk } from '../desk-context.ts';

/** The wind, shear and temperature that the rows give at the layer, or why they give none. */
export function LayerWind(): VNode {
  const { editor } = useDesk();
  const job = editor.job.value;
  const air = jobAir(job);
  const { found, shear: shearVector } = air;
  const height = `${formatNumber(job.layer.altitudeFeet)} ft`;
  if (!found.ok) {
    return (
      <p class="fault" role="status">
        {missingWindWords(air)}
      </p>
    );
  }
  const { fromRadians, speedMetresPerSecond } = windFromVector(found.wind);
  const shear = shearVector === null ? null : Math.hypot(shearVector.eastPerSecond, shearVector.northPerSecond);
  const held = feetFromMetres(Math.abs(found.heldMetres));
  return (
    <dl class="figure-rows">
      <FigureRow
        label={`Wind at ${height}`}
        name="layer-wind"
        value={`${degreesFromRadians(fromRadians).toFixed(1)}/${speedMetresPerSecond.toFixed(3)}`}
        {...(found.heldMetres === 0 ? {} : { note: `Held from the ${found.heldMetres > 0 ? 'highest' : 'lowest'} row, ${formatNumber(held)} ft away` })}
      >
        {found.directionKnown
          ? `from ${formatBearing(degreesFromRadians(fromRadians))}\u00b0 true at ${formatNumber(knotsFromMetresPerSecond(speedMetresPerSecond))} kt`
          : 'light and variable: under 5 kt, from anywhere'}
      </FigureRow>
      <FigureRow label="Shear there" note={shear === null ? 'One row tells nothing of it; give a second height' : 'at least: rows far apart smooth it'}>
        {shear === null ? 'not known' : `${formatNumber(knotsFromMetresPerSecond(shear * METRES_PER_FOOT * 1000), 1)} kt per 1,000 ft`}
      </FigureRow>
      <FigureRow label="Temperature">
        {formatNumber(celsiusFromKelvin(air.temperatureKelvin), 0)} {'\u00b0C'}
      </FigureRow>
    </dl>
  );
}
