import { type Estimate, STATE, variance } from '../../tracking/estimate.ts';
import type { Flight } from '../guidance-state.ts';

/** Known no better than this, one standard deviation of each component, the wind does not count. */
const COUNTED_SIGMA = 1.5;

/** The wind's average with one more fix in it: since the wind wanders about a mean, the mean is what carries the smoke for the next ten minutes. */
export function averagedWind({ windAverage }: Flight, estimate: Estimate): Flight['windAverage'] {
  const sigma = Math.sqrt((variance(estimate, STATE.windEast) + variance(estimate, STATE.windNorth)) / 2);
  const wind = { eastMetresPerSecond: estimate.mean[STATE.windEast]!, northMetresPerSecond: estimate.mean[STATE.windNorth]! };
  if (windAverage === null) return sigma > COUNTED_SIGMA ? null : { wind, seconds: 1 };
  const seconds = windAverage.seconds + 1;
  const share = 1 / seconds;
  return {
    seconds,
    wind: {
      eastMetresPerSecond: windAverage.wind.eastMetresPerSecond + share * (wind.eastMetresPerSecond - windAverage.wind.eastMetresPerSecond),
      northMetresPerSecond: windAverage.wind.northMetresPerSecond + share * (wind.northMetresPerSecond - windAverage.wind.northMetresPerSecond),
    },
  };
}
