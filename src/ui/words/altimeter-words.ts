import { altimeterReadings } from '../../core/earth/altimeter.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { Job } from '../../core/job/job.ts';
import { standardTemperatureKelvin } from '../../core/earth/standard-atmosphere.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { feetFromMetres, metresFromFeet } from '../../core/units/quantity.ts';

/**
 * What the altimeter shows while the layer's true height is flown: on QNH, on 1013 hPa as a flight level, and on QFE. Null
 * where nobody has said the setting.
 *
 * @param stepMetres how much higher than the layer this ship writes
 */
export function altimeterWords(job: Job, units: UnitText, stepMetres = 0): string | null {
  const { altimeterHectopascals } = job.conditions;
  if (altimeterHectopascals === null) return null;
  const { layerHeightMetres, temperatureKelvin } = jobAir(job);
  const { height, pressure } = units;
  const read = altimeterReadings(layerHeightMetres + stepMetres, metresFromFeet(job.site.elevationFeet), altimeterHectopascals, temperatureKelvin);
  const level = String(Math.round(feetFromMetres(read.onStandardMetres) / 100)).padStart(3, '0');
  return `QNH ${pressure.text(altimeterHectopascals)} shows ${height.text(read.onQnhMetres)}; flight level ${level} on ${pressure.text(1013.25)}; QFE ${pressure.text(read.qfeHectopascals)} shows ${height.text(read.onQfeMetres)}`;
}

/** How the air differs from the standard, in the chosen degrees: `8 \u00b0C colder than standard air`. */
export function airAgainstStandard(job: Job, { temperature }: UnitText): string {
  const { layerHeightMetres, temperatureKelvin, temperatureSource } = jobAir(job);
  if (temperatureSource === 'standard atmosphere') return 'standard air, as no temperature is known';
  const warmerKelvin = temperatureKelvin - standardTemperatureKelvin(layerHeightMetres);
  const degrees = Math.abs(temperature.of(warmerKelvin) - temperature.of(0));
  return Math.round(degrees) === 0
    ? 'as warm as standard air'
    : `${Math.round(degrees)} ${temperature.unit} ${warmerKelvin > 0 ? 'warmer' : 'colder'} than standard air`;
}
