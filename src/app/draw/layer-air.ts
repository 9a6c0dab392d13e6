import { calibratedFromTrue, trueFromCalibrated } from '../../core/earth/airspeed.ts';
import { celsiusFromKelvin, kelvinFromCelsius, standardTemperatureKelvin } from '../../core/earth/standard-atmosphere.ts';
import { temperatureAt } from '../../core/earth/wind-profile.ts';
import { windProfileFromJob } from '../../core/job/job-winds.ts';
import type { Job } from '../../core/job/job.ts';
import { knotsFromMetresPerSecond, metresFromFeet, metresPerSecondFromKnots } from '../../core/units/quantity.ts';

/** The airspeeds of a job's layer, in the pilot's units; the altitude is taken for pressure altitude. */
export interface LayerAir {
  readonly celsius: number;
  /** Where the temperature comes from, in words. */
  readonly from: 'as entered' | 'by the winds' | 'standard air';
  trueKnots(calibratedKnots: number): number;
  calibratedKnots(trueKnots: number): number;
}

/** The air of a job's layer: the temperature as entered, else by the winds, else the standard one. */
export function layerAir({ layer, winds }: Pick<Job, 'layer' | 'winds'>): LayerAir {
  const heightMetres = metresFromFeet(layer.altitudeFeet);
  const profile = windProfileFromJob(winds);
  const known =
    profile.ok && winds.some(({ temperatureCelsius }) => temperatureCelsius !== null) ? temperatureAt(profile.profile, heightMetres).temperatureKelvin : null;
  const kelvin = layer.temperatureCelsius !== null ? kelvinFromCelsius(layer.temperatureCelsius) : (known ?? standardTemperatureKelvin(heightMetres));
  return {
    celsius: celsiusFromKelvin(kelvin),
    from: layer.temperatureCelsius !== null ? 'as entered' : known !== null ? 'by the winds' : 'standard air',
    trueKnots: (calibratedKnots) => knotsFromMetresPerSecond(trueFromCalibrated(metresPerSecondFromKnots(calibratedKnots), heightMetres, kelvin)),
    calibratedKnots: (trueKnots) => knotsFromMetresPerSecond(calibratedFromTrue(metresPerSecondFromKnots(trueKnots), heightMetres, kelvin)),
  };
}
