import { altimeterReadings } from '../../core/earth/altimeter.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { Job } from '../../core/job/job.ts';
import { standardTemperatureKelvin } from '../../core/earth/standard-atmosphere.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { feetFromMetres, metresFromFeet } from '../../core/units/quantity.ts';

/** What an altimeter shows on one setting: `QNH 1021 hPa` and `10,256 ft`. */
export interface AltimeterRow {
  readonly setting: string;
  readonly shows: string;
}

/**
 * What the altimeter shows while the layer's true height is flown: on QNH, on 1013 hPa as a flight level, and on QFE. Empty
 * where nobody has said the setting.
 *
 * @param stepMetres how much higher than the layer this ship writes
 */
export function altimeterRows(job: Job, { height, pressure }: UnitText, stepMetres = 0): readonly AltimeterRow[] {
  const { altimeterHectopascals } = job.conditions;
  if (altimeterHectopascals === null) return [];
  const { layerHeightMetres, temperatureKelvin } = jobAir(job);
  const read = altimeterReadings(layerHeightMetres + stepMetres, metresFromFeet(job.site.elevationFeet), altimeterHectopascals, temperatureKelvin);
  const level = String(Math.round(feetFromMetres(read.onStandardMetres) / 100)).padStart(3, '0');
  return [
    { setting: `QNH ${pressure.text(altimeterHectopascals)}`, shows: height.text(read.onQnhMetres) },
    { setting: pressure.text(1013.25), shows: `flight level ${level}` },
    { setting: `QFE ${pressure.text(read.qfeHectopascals)}`, shows: height.text(read.onQfeMetres) },
  ];
}

/** The same in one line, for a sheet; null where nobody has said the setting. */
export function altimeterWords(job: Job, units: UnitText, stepMetres = 0): string | null {
  const rows = altimeterRows(job, units, stepMetres);
  return rows.length === 0 ? null : rows.map(({ setting, shows }) => `${setting} shows ${shows}`).join('; ');
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
