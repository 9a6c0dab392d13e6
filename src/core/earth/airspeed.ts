import { SEA_LEVEL_KELVIN, SEA_LEVEL_PASCALS, soundMetresPerSecond, standardPressurePascals } from './standard-atmosphere.ts';

/**
 * True airspeed from calibrated airspeed, compressible and subsonic: the pitot's excess pressure at sea level
 * density, read as Mach at the pressure and temperature there. Installation error is left out, so indicated airspeed
 * serves for calibrated only as far as the aircraft's own card says.
 *
 * `qc = P0 ((1 + 0.2 (CAS / a0)^2)^3.5 - 1)`, `M = sqrt(5 ((qc / p + 1)^(2/7) - 1))`, `TAS = M a`.
 * Worked: 120 kt at 10,000 ft in standard air (-4.812 C) is 139.384 kt. Inverse: {@link calibratedFromTrue}.
 *
 * @param temperatureKelvin of the outside air; the standard one when it is not known
 * @throws RangeError for a speed below 0 or past the speed of sound, or a height outside -2 to 20 km
 */
export function trueFromCalibrated(calibratedMetresPerSecond: number, pressureAltitudeMetres: number, temperatureKelvin: number): number {
  const mach = machFrom(excess(calibratedMetresPerSecond, soundMetresPerSecond(SEA_LEVEL_KELVIN)) * SEA_LEVEL_PASCALS, pressureAltitudeMetres);
  if (mach > 1) throw new RangeError(`calibrated ${calibratedMetresPerSecond} m/s is past the speed of sound there`);
  return mach * soundMetresPerSecond(temperatureKelvin);
}

/**
 * Calibrated airspeed from true airspeed; the inverse of {@link trueFromCalibrated}, exact to rounding.
 *
 * @throws RangeError for a speed below 0 or past the speed of sound, or a height outside -2 to 20 km
 */
export function calibratedFromTrue(trueMetresPerSecond: number, pressureAltitudeMetres: number, temperatureKelvin: number): number {
  const pressurePascals = standardPressurePascals(pressureAltitudeMetres);
  const excessPascals = excess(trueMetresPerSecond, soundMetresPerSecond(temperatureKelvin)) * pressurePascals;
  return machFrom(excessPascals, 0) * soundMetresPerSecond(SEA_LEVEL_KELVIN);
}

function excess(speedMetresPerSecond: number, sound: number): number {
  if (!(speedMetresPerSecond >= 0 && speedMetresPerSecond <= sound)) {
    throw new RangeError(`an airspeed must lie between 0 and the speed of sound (${sound} m/s), not ${speedMetresPerSecond}`);
  }
  return Math.expm1(3.5 * Math.log1p(0.2 * (speedMetresPerSecond / sound) ** 2));
}

function machFrom(excessPascals: number, pressureAltitudeMetres: number): number {
  const ratio = excessPascals / standardPressurePascals(pressureAltitudeMetres);
  return Math.sqrt(5 * Math.expm1((2 / 7) * Math.log1p(ratio)));
}
