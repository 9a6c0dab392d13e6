import { kelvinFromCelsius } from '../earth/standard-atmosphere.ts';
import { LIGHT_STANDARD_DEVIATION, type WindProfile, type WindRow } from '../earth/wind-profile.ts';
import { CALM, windVectorFrom } from '../earth/wind-vector.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { metresFromFeet, metresPerSecondFromKnots } from '../units/quantity.ts';
import type { JobWind } from './job.ts';

/**
 * A profile of the job file's rows, in any order. One row is enough for the wind, not for the shear.
 *
 * @returns a reason for no rows, for a height twice, or for a value that is not a wind
 */
export function windProfileFromJob(
  winds: readonly JobWind[],
): { readonly ok: true; readonly profile: WindProfile } | { readonly ok: false; readonly reason: string } {
  if (winds.length === 0) return { ok: false, reason: 'no winds are given' };
  const rows: WindRow[] = [];
  for (const { altitudeFeet, fromDegreesTrue, speedKnots, temperatureCelsius } of winds) {
    const numbers = [altitudeFeet, fromDegreesTrue ?? 0, speedKnots, temperatureCelsius ?? 0];
    if (!numbers.every(Number.isFinite) || speedKnots < 0) {
      return { ok: false, reason: `the wind at ${altitudeFeet} ft is not a direction and a speed` };
    }
    const known = fromDegreesTrue !== null;
    rows.push({
      heightMetres: metresFromFeet(altitudeFeet),
      wind: known ? windVectorFrom({ fromRadians: radiansFromDegrees(fromDegreesTrue), speedMetresPerSecond: metresPerSecondFromKnots(speedKnots) }) : CALM,
      standardDeviationMetresPerSecond: known ? 0 : LIGHT_STANDARD_DEVIATION,
      temperatureKelvin: temperatureCelsius === null ? null : kelvinFromCelsius(temperatureCelsius),
    });
  }
  rows.sort((one, other) => one.heightMetres - other.heightMetres);
  const twice = rows.find((row, index) => row.heightMetres === rows[index + 1]?.heightMetres);
  if (twice !== undefined) return { ok: false, reason: `two winds are given for ${Math.round(twice.heightMetres / 0.3048)} ft` };
  return { ok: true, profile: { rows } };
}
