import { describe, expect, it } from 'vitest';
import { flightSeries } from '../../../src/core/debrief/flight-series.ts';
import { flyWord, worldFor } from './flown-word.ts';

describe('a flight from second to second', () => {
  const flown = flyWord('HI', worldFor(3), {});
  const { firstSmokeSeconds, lastSmokeSeconds } = flown.debrief.flight;
  const series = flightSeries(flown.debrief, firstSmokeSeconds! - 10, lastSmokeSeconds! + 30)!;

  it('has a value for each second, airspeed and wind as the simulated air had them', () => {
    const length = Math.floor(lastSmokeSeconds! + 30 - (firstSmokeSeconds! - 10)) + 1;
    for (const values of [series.atSeconds, series.offLineMetres, series.trueAirspeedMetresPerSecond, series.windSpeedMetresPerSecond, series.heightMetres]) {
      expect(values).toHaveLength(length);
    }
    let [airspeedSum, windSum, count] = [0, 0, 0];
    for (const [index, atSeconds] of series.atSeconds.entries()) {
      // The last position may be older than the last smoke.
      if (atSeconds < firstSmokeSeconds! || atSeconds > lastSmokeSeconds! - 3) continue;
      const truth = flown.truth.find((moment) => moment.atSeconds >= atSeconds)!;
      airspeedSum += (series.trueAirspeedMetresPerSecond[index]! - truth.airspeed) ** 2;
      windSum += (series.windSpeedMetresPerSecond[index]! - Math.hypot(truth.windEast, truth.windNorth)) ** 2;
      count += 1;
    }
    expect(Math.sqrt(airspeedSum / count)).toBeLessThan(2);
    expect(Math.sqrt(windSum / count)).toBeLessThan(1.5);
  });

  it('knows the distance from the line under smoke alone, and no height that no receiver gave', () => {
    for (const [index, atSeconds] of series.atSeconds.entries()) {
      const smoking = flown.debrief.intervals.some(({ onSeconds, offSeconds }) => onSeconds < atSeconds - 1 && offSeconds > atSeconds + 1);
      const clear = flown.debrief.intervals.every(({ onSeconds, offSeconds }) => onSeconds > atSeconds + 1 || offSeconds < atSeconds - 1);
      if (smoking) expect(Math.abs(series.offLineMetres[index]!)).toBeLessThan(120);
      if (clear) expect(series.offLineMetres[index]).toBeNaN();
    }
    expect(series.heightMetres.every(Number.isNaN)).toBe(true);
  });

  it('is nothing over an empty stretch', () => {
    expect(flightSeries(flown.debrief, 100, 100)).toBeNull();
  });
});
