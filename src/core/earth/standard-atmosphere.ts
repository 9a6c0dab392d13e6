import { STANDARD_GRAVITY } from '../units/quantity.ts';

/**
 * The standard atmosphere up to 20 km: U.S. Standard Atmosphere 1976 (NOAA-S/T 76-1562), the same as ICAO Doc 7488
 * there. Heights are geopotential; with an altimeter on 1013.25 hPa that is pressure altitude.
 */

/** Sea level: temperature, pressure; lapse rate of the troposphere; its top. */
export const SEA_LEVEL_KELVIN = 288.15;
export const SEA_LEVEL_PASCALS = 101_325;
const LAPSE_KELVIN_PER_METRE = 0.0065;
const TROPOPAUSE_METRES = 11_000;
const LOWEST_METRES = -2_000;
const HIGHEST_METRES = 20_000;

/** Gas constant of dry air, J / (kg K): R* of 8,314.32 J / (kmol K) over 28.9644 kg / kmol. */
export const GAS_CONSTANT = 8_314.32 / 28.9644;
/** Ratio of specific heats of air. */
export const HEAT_RATIO = 1.4;
const KELVIN_AT_ZERO_CELSIUS = 273.15;
const EARTH_RADIUS_METRES = 6_356_766;

const PRESSURE_EXPONENT = STANDARD_GRAVITY / (GAS_CONSTANT * LAPSE_KELVIN_PER_METRE);

/** Kelvin from degrees Celsius; exact. */
export const kelvinFromCelsius = (celsius: number): number => celsius + KELVIN_AT_ZERO_CELSIUS;
/** Degrees Celsius from kelvin; the inverse of {@link kelvinFromCelsius}. */
export const celsiusFromKelvin = (kelvin: number): number => kelvin - KELVIN_AT_ZERO_CELSIUS;

/**
 * Geopotential from geometric height (USSA 1976, eq. 18). 3,048 m is 3,046.539 m.
 *
 * @oracle
 */
export function geopotentialFromGeometric(geometricMetres: number): number {
  return (EARTH_RADIUS_METRES * geometricMetres) / (EARTH_RADIUS_METRES + geometricMetres);
}

/**
 * Standard temperature. 3,048 m (10,000 ft) is 268.338 K.
 *
 * @throws RangeError outside -2 to 20 km
 */
export function standardTemperatureKelvin(geopotentialMetres: number): number {
  checkHeight(geopotentialMetres);
  return SEA_LEVEL_KELVIN - LAPSE_KELVIN_PER_METRE * Math.min(geopotentialMetres, TROPOPAUSE_METRES);
}

/**
 * Standard pressure. 3,048 m (10,000 ft) is 69,681.66 Pa.
 *
 * @throws RangeError outside -2 to 20 km
 */
export function standardPressurePascals(geopotentialMetres: number): number {
  const temperatureKelvin = standardTemperatureKelvin(geopotentialMetres);
  const tropospherePascals = SEA_LEVEL_PASCALS * (temperatureKelvin / SEA_LEVEL_KELVIN) ** PRESSURE_EXPONENT;
  const aboveMetres = Math.max(0, geopotentialMetres - TROPOPAUSE_METRES);
  return tropospherePascals * Math.exp((-STANDARD_GRAVITY * aboveMetres) / (GAS_CONSTANT * temperatureKelvin));
}

/**
 * Standard density, kg / m3. 3,048 m (10,000 ft) is 0.904637.
 *
 * @throws RangeError outside -2 to 20 km
 *
 * @oracle
 */
export function standardDensity(geopotentialMetres: number): number {
  return standardPressurePascals(geopotentialMetres) / (GAS_CONSTANT * standardTemperatureKelvin(geopotentialMetres));
}

/** Speed of sound in air of a temperature. 268.338 K gives 328.387 m/s. */
export function soundMetresPerSecond(temperatureKelvin: number): number {
  if (!(temperatureKelvin > 0 && temperatureKelvin < Infinity)) {
    throw new RangeError(`temperatureKelvin must be above 0, not ${temperatureKelvin}`);
  }
  return Math.sqrt(HEAT_RATIO * GAS_CONSTANT * temperatureKelvin);
}

/**
 * Density altitude: the standard height with the density of this air, in the troposphere's law.
 * 5,048 ft at 30 C is 7,858.8 ft (FAA-H-8083-25C ch. 8 reads 7,855 off a chart).
 *
 * @throws RangeError for a height outside -2 to 20 km, or a temperature not above 0 K
 *
 * @oracle
 */
export function densityAltitudeMetres(pressureAltitudeMetres: number, temperatureKelvin: number): number {
  if (!(temperatureKelvin > 0 && temperatureKelvin < Infinity)) {
    throw new RangeError(`temperatureKelvin must be above 0, not ${temperatureKelvin}`);
  }
  const ratio = (standardPressurePascals(pressureAltitudeMetres) / SEA_LEVEL_PASCALS) * (SEA_LEVEL_KELVIN / temperatureKelvin);
  return (SEA_LEVEL_KELVIN / LAPSE_KELVIN_PER_METRE) * (1 - ratio ** (1 / (PRESSURE_EXPONENT - 1)));
}

function checkHeight(geopotentialMetres: number): void {
  if (!(geopotentialMetres >= LOWEST_METRES && geopotentialMetres <= HIGHEST_METRES)) {
    throw new RangeError(`a height must lie within ${LOWEST_METRES} and ${HIGHEST_METRES} m, not ${geopotentialMetres}`);
  }
}
