import type { JobOptions, JobShip } from './job.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { metresPerSecondFromKnots } from '../units/quantity.ts';
import type { ShipLimits } from '../paths/ship-model.ts';

/**
 * What all ships of a job can do: a formation flies at the airspeed of its slowest and the banks of its gentlest, so
 * that any of them can fly any part.
 */
export function commonLimits(ships: readonly JobShip[], options: JobOptions): ShipLimits {
  const least = (numberOf: (ship: JobShip) => number): number => ships.reduce((smallest, ship) => Math.min(smallest, numberOf(ship)), Infinity);
  return {
    trueAirspeedMetresPerSecond: metresPerSecondFromKnots(least((ship) => ship.trueAirspeedKnots)),
    writingBankRadians: radiansFromDegrees(least((ship) => ship.writingBankDegrees)),
    turningBankRadians: radiansFromDegrees(least((ship) => ship.turningBankDegrees)),
    rollRateRadiansPerSecond: radiansFromDegrees(least((ship) => ship.rollRateDegreesPerSecond)),
    runInSeconds: options.runInSeconds,
    runOutSeconds: options.runOutSeconds,
  };
}
