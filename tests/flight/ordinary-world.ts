import type { FlightWorld } from './simulated-flight.ts';
import { trueVariationDegrees } from './true-variation.ts';
import { WORD_AIRSPEED, WORD_FORECAST, WORD_LAYER_METRES, WORD_SITE } from './word-setup.ts';

const WORD_DAY_MILLISECONDS = Date.UTC(2027, 6, 17);

/** Ten knots in metres per second. */
export const TEN_KNOTS = 5.144;

/**
 * An ordinary pilot with an ordinary receiver, in a wind that the forecast got wrong by an amount, from a direction
 * that goes round with the seed.
 */
export function ordinaryWorld(seed: number, forecastErrorMetresPerSecond: number, changes: Partial<FlightWorld> = {}): FlightWorld {
  const towards = seed * 2.4;
  return {
    seed,
    windEastMetresPerSecond: WORD_FORECAST.eastMetresPerSecond + forecastErrorMetresPerSecond * Math.cos(towards),
    windNorthMetresPerSecond: WORD_FORECAST.northMetresPerSecond + forecastErrorMetresPerSecond * Math.sin(towards),
    windWanderSigma: 0.77,
    airspeedMetresPerSecond: WORD_AIRSPEED,
    airspeedWander: 0.03,
    reactionSeconds: 0.4,
    rollRateDegreesPerSecond: 30,
    valveOnSeconds: 0,
    valveOffSeconds: 0,
    fixIntervalSeconds: 1,
    fixNoiseMetres: 3,
    fixLatencySeconds: 0.7,
    fixLosses: () => false,
    startEastMetres: -4000,
    startNorthMetres: -2000,
    startHeadingDegrees: 60,
    variationDegrees: trueVariationDegrees(WORD_SITE, WORD_LAYER_METRES, WORD_DAY_MILLISECONDS),
    ...changes,
  };
}
