import { SEA_LEVEL_KELVIN, SEA_LEVEL_PASCALS, standardPressurePascals, standardTemperatureKelvin } from './standard-atmosphere.ts';

/** What altimeters show in a ship that flies a true height. Metres; hectopascals where the name says so. */
export interface AltimeterReadings {
  /** Set to the QNH. */
  readonly onQnhMetres: number;
  /** Set to 1013.25 hPa: in hundreds of feet the flight level. */
  readonly onStandardMetres: number;
  /** The pressure at the site's elevation, and what an altimeter set to it shows. */
  readonly qfeHectopascals: number;
  readonly onQfeMetres: number;
}

const LAPSE_KELVIN_PER_METRE = 0.0065;
/** R L / g of the standard atmosphere's troposphere (ICAO Doc 7488). */
const EXPONENT = 0.190_263;

/**
 * An altimeter counts standard air; colder air is thinner from level to level, so it shows too much. The air between site
 * and layer is taken to differ from the standard by as much everywhere as at the layer (ICAO Doc 8168, PANS-OPS, volume I,
 * part III: the temperature correction): `shown = elevation + (true - elevation) mean standard / mean true temperature`.
 * At the site the QNH shows the elevation. Heights geopotential; below 11 km.
 *
 * Worked: 10,500 ft over a site of 1,640 ft, 10 K colder than standard, on any QNH shows 10,833 ft.
 *
 * @param trueMetres above mean sea level
 * @param temperatureKelvin at that height
 * @throws RangeError outside of the standard atmosphere's heights
 */
export function altimeterReadings(trueMetres: number, siteElevationMetres: number, qnhHectopascals: number, temperatureKelvin: number): AltimeterReadings {
  const thicknessMetres = trueMetres - siteElevationMetres;
  const meanStandardKelvin = standardTemperatureKelvin(siteElevationMetres + thicknessMetres / 2);
  const colderKelvin = standardTemperatureKelvin(trueMetres) - temperatureKelvin;
  const onQnhMetres = siteElevationMetres + (thicknessMetres * meanStandardKelvin) / (meanStandardKelvin - colderKelvin);
  // What the standard atmosphere has above sea level where it has the pressure of the setting.
  const settingMetres = (SEA_LEVEL_KELVIN / LAPSE_KELVIN_PER_METRE) * (1 - ((100 * qnhHectopascals) / SEA_LEVEL_PASCALS) ** EXPONENT);
  return {
    onQnhMetres,
    onStandardMetres: onQnhMetres + settingMetres,
    qfeHectopascals: standardPressurePascals(siteElevationMetres + settingMetres) / 100,
    onQfeMetres: onQnhMetres - siteElevationMetres,
  };
}
