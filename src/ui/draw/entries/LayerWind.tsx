import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { shearAt, temperatureAt, windAt } from '../../../core/earth/wind-profile.ts';
import { windProfileFromJob } from '../../../core/job/job-winds.ts';
import { celsiusFromKelvin } from '../../../core/earth/standard-atmosphere.ts';
import { windFromVector } from '../../../core/earth/wind-vector.ts';
import { degreesFromRadians } from '../../../core/units/angle.ts';
import { feetFromMetres, knotsFromMetresPerSecond, METRES_PER_FOOT, metresFromFeet } from '../../../core/units/quantity.ts';
import { FigureRow } from '../../fields/FigureRow.tsx';
import { formatBearing, formatNumber } from '../../../core/text/number-formats.ts';
import { useDesk } from '../desk-context.ts';

/** The wind, shear and temperature that the rows give at the layer, or why they give none. */
export function LayerWind(): VNode {
  const { editor } = useDesk();
  const { winds, layer } = editor.job.value;
  const found = useMemo(() => {
    const profile = windProfileFromJob(winds);
    if (!profile.ok) return { ok: false as const, reason: profile.reason };
    const heightMetres = metresFromFeet(layer.altitudeFeet);
    const wind = windAt(profile.profile, heightMetres);
    if (!wind.ok) return wind;
    return {
      ...wind,
      shear: shearAt(profile.profile, heightMetres),
      celsius: celsiusFromKelvin(temperatureAt(profile.profile, heightMetres).temperatureKelvin),
    };
  }, [winds, layer.altitudeFeet]);
  const height = `${formatNumber(layer.altitudeFeet)} ft`;
  if (!found.ok) {
    return (
      <p class="fault" role="status">
        No wind at {height}: {found.reason}. The plan is made as if the air stood still; the place it gives is of no use.
      </p>
    );
  }
  const { fromRadians, speedMetresPerSecond } = windFromVector(found.wind);
  const shear = found.shear === null ? null : Math.hypot(found.shear.eastPerSecond, found.shear.northPerSecond);
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
        {formatNumber(layer.temperatureCelsius ?? found.celsius, 0)} {'\u00b0C'}
      </FigureRow>
    </dl>
  );
}
