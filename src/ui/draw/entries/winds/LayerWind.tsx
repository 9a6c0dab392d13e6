import type { VNode } from 'preact';
import { jobAir, missingWindWords } from '../../../../core/job/job-air.ts';
import { celsiusFromKelvin } from '../../../../core/earth/standard-atmosphere.ts';
import { windFromVector } from '../../../../core/earth/wind-vector.ts';
import { degreesFromRadians } from '../../../../core/units/angle.ts';
import { FigureRow } from '../../../fields/FigureRow.tsx';
import { formatBearing } from '../../../../core/text/number-formats.ts';
import { useDesk } from '../../desk-context.ts';
import { useUnitText } from '../../../fields/units-context.ts';

/** The wind, shear and temperature that the rows give at the layer, or why they give none. */
export function LayerWind(): VNode {
  const { editor } = useDesk();
  const units = useUnitText();
  const job = editor.job.value;
  const air = jobAir(job);
  const { found, shear: shearVector } = air;
  const height = units.height.own(job.layer.altitudeFeet);
  if (!found.ok) {
    return (
      <p class="fault" role="status">
        {missingWindWords(air)}
      </p>
    );
  }
  const { fromRadians, speedMetresPerSecond } = windFromVector(found.wind);
  const shear = shearVector === null ? null : Math.hypot(shearVector.eastPerSecond, shearVector.northPerSecond);
  return (
    <dl class="figure-rows">
      <FigureRow
        label={`Wind at ${height}`}
        name="layer-wind"
        value={`${degreesFromRadians(fromRadians).toFixed(1)}/${speedMetresPerSecond.toFixed(3)}`}
        {...(found.heldMetres === 0
          ? {}
          : { note: `Held from the ${found.heldMetres > 0 ? 'highest' : 'lowest'} row, ${units.height.text(Math.abs(found.heldMetres))} away` })}
      >
        {found.directionKnown
          ? `from ${formatBearing(degreesFromRadians(fromRadians))}\u00b0 true at ${units.speed.text(speedMetresPerSecond)}`
          : `light and variable: under ${units.speed.own(5)}, from anywhere`}
      </FigureRow>
      <FigureRow label="Shear there" note={shear === null ? 'One row tells nothing of it; give a second height' : 'at least: rows far apart smooth it'}>
        {shear === null ? 'not known' : units.shear(shear)}
      </FigureRow>
      <FigureRow label="Temperature">{units.temperature.text(celsiusFromKelvin(air.temperatureKelvin))}</FigureRow>
    </dl>
  );
}
