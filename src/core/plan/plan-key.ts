import type { Job } from '../job/job.ts';

/** Everything of a job that its plan depends on, as text: two jobs of one key have one plan. */
export function planKey({
  text,
  site,
  viewingPlaces,
  facingDegreesTrue,
  viewElevationDegrees,
  readTime,
  layer,
  letters,
  drawings,
  winds,
  ships,
  options,
}: Job): string {
  // What the ships carry, how their valves answer and how their pilots react is asked of the plan, not by it.
  const flown = ships.map(({ trueAirspeedKnots, writingBankDegrees, turningBankDegrees, rollRateDegreesPerSecond, smokeOilPoundsPerMinute }) => [
    trueAirspeedKnots,
    writingBankDegrees,
    turningBankDegrees,
    rollRateDegreesPerSecond,
    smokeOilPoundsPerMinute,
  ]);
  const place = [site.latitudeDegrees, site.longitudeDegrees, site.elevationFeet, site.crowdWeight, viewingPlaces];
  return JSON.stringify([text, place, facingDegreesTrue, viewElevationDegrees, readTime, layer, letters, drawings, winds, flown, options]);
}
