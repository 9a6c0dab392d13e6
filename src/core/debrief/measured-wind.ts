import { type WindVector, windFromVector } from '../earth/wind-vector.ts';
import type { JobWind } from '../job/job.ts';
import { JOB_LENGTHS } from '../job/job-schema.ts';
import { jobLimits } from '../job/job-limits.ts';
import { degreesFromRadians } from '../units/angle.ts';
import { feetFromMetres, knotsFromMetresPerSecond } from '../units/quantity.ts';
import type { FlightScore } from './flight-score.ts';
import type { ShipLog } from './ship-log.ts';

/** A wind that a flight has measured. */
export interface MeasuredWind {
  /** Above mean sea level, or as the receiver reckons heights. */
  readonly heightMetres: number;
  readonly wind: WindVector;
  /** One standard deviation of each component. */
  readonly sigmaMetresPerSecond: number;
}

/** Rows nearer in height than this to a measured one give way to it: it says the same, and was there. */
export const GIVES_WAY_FEET = 300;
/** Light and variable is under this (FAA AC 00-45H, 5.13.1). */
const LIGHT_KNOTS = 5;

/**
 * The wind found while writing, at the median height of the fixes meanwhile, or of the setup where a receiver gave
 * none; null when the track does not tell.
 */
export function measuredWind(log: ShipLog, flight: FlightScore): MeasuredWind | null {
  const { windFound, windSigmaMetresPerSecond, firstSmokeSeconds, lastSmokeSeconds } = flight;
  if (windFound === null || windSigmaMetresPerSecond === null || firstSmokeSeconds === null || lastSmokeSeconds === null) return null;
  const heights = log.events
    .flatMap((event, index) => {
      const at = log.times[index] ?? NaN;
      return event.kind === 'fixReceived' &&
        at >= firstSmokeSeconds &&
        at <= lastSmokeSeconds &&
        event.fix.altitudeMetres !== null &&
        Number.isFinite(event.fix.altitudeMetres)
        ? [event.fix.altitudeMetres]
        : [];
    })
    .sort((one, other) => one - other);
  return { heightMetres: heights[heights.length >> 1] ?? log.setup.layerHeightMetres, wind: windFound, sigmaMetresPerSecond: windSigmaMetresPerSecond };
}

/**
 * A job's row of a measured wind: whole feet by tens, whole degrees, tenths of a knot. A wind under 5 kt and under twice
 * its own doubt is light and variable.
 *
 * Worked: 6.2 m/s from the west at 3,200 m is `10,500 ft, 270, 12.1 kt`.
 */
export function measuredWindRow({ heightMetres, wind, sigmaMetresPerSecond }: MeasuredWind): JobWind {
  const { fromRadians, speedMetresPerSecond } = windFromVector(wind);
  const speedKnots = knotsFromMetresPerSecond(speedMetresPerSecond);
  const light = speedKnots < LIGHT_KNOTS && speedMetresPerSecond < 2 * sigmaMetresPerSecond;
  const [least, greatest] = jobLimits('winds.altitudeFeet');
  return {
    altitudeFeet: Math.min(greatest, Math.max(least, Math.round(feetFromMetres(heightMetres) / 10) * 10)),
    fromDegreesTrue: light ? null : Math.round(degreesFromRadians(fromRadians)) % 360,
    speedKnots: light ? 0 : Math.round(Math.min(jobLimits('winds.speedKnots')[1], speedKnots) * 10) / 10,
    temperatureCelsius: null,
  };
}

/**
 * The rows with a measured one among them, by height. Rows within {@link GIVES_WAY_FEET} give way and leave it the
 * nearest one's temperature.
 *
 * @returns null when the job holds no more rows
 */
export function windsWithMeasured(winds: readonly JobWind[], measured: JobWind): JobWind[] | null {
  const apart = ({ altitudeFeet }: JobWind): number => Math.abs(altitudeFeet - measured.altitudeFeet);
  const nearest = winds.filter((row) => apart(row) <= GIVES_WAY_FEET).sort((one, other) => apart(one) - apart(other))[0];
  const kept = winds.filter((row) => apart(row) > GIVES_WAY_FEET);
  if (kept.length >= JOB_LENGTHS.winds) return null;
  const row = { ...measured, temperatureCelsius: measured.temperatureCelsius ?? nearest?.temperatureCelsius ?? null };
  return [...kept, row].sort((one, other) => one.altitudeFeet - other.altitudeFeet);
}
