import { calibratedFromTrue, trueFromCalibrated } from '../../core/earth/airspeed.ts';
import { celsiusFromKelvin } from '../../core/earth/standard-atmosphere.ts';
import { jobAir, type JobOfAir } from '../../core/job/job-air.ts';
import { knotsFromMetresPerSecond, metresPerSecondFromKnots } from '../../core/units/quantity.ts';

/** The airspeeds of a job's layer, in the pilot's units; the altitude is taken for pressure altitude. */
export interface LayerAir {
  readonly celsius: number;
  /** Where the temperature comes from, in words. */
  readonly from: 'as entered' | 'by the winds' | 'standard air';
  trueKnots(calibratedKnots: number): number;
  calibratedKnots(trueKnots: number): number;
}

const FROM = { entered: 'as entered', winds: 'by the winds', 'standard atmosphere': 'standard air' } as const;

/** The air of a job's layer: the temperature as entered, else by the winds, else the standard one. */
export function layerAir(job: JobOfAir): LayerAir {
  const { layerHeightMetres, temperatureKelvin, temperatureSource } = jobAir(job);
  return {
    celsius: celsiusFromKelvin(temperatureKelvin),
    from: FROM[temperatureSource],
    trueKnots: (calibratedKnots) =>
      knotsFromMetresPerSecond(trueFromCalibrated(metresPerSecondFromKnots(calibratedKnots), layerHeightMetres, temperatureKelvin)),
    calibratedKnots: (trueKnots) => knotsFromMetresPerSecond(calibratedFromTrue(metresPerSecondFromKnots(trueKnots), layerHeightMetres, temperatureKelvin)),
  };
}
