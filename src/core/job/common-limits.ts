import type { Job, JobOptions, JobShip } from './job.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { metresPerSecondFromKnots } from '../units/quantity.ts';
import type { ShipLimits } from '../paths/ship-model.ts';

/**
 * A ship of a job as it flies the plan: at the airspeed and the banks of {@link commonLimits}.
 *
 * @returns undefined for an index of no ship
 */
export function shipAsFlown({ ships }: Pick<Job, 'ships'>, shipIndex: number): JobShip | undefined {
  const own = ships[shipIndex];
  return own === undefined
    ? undefined
    : {
        ...own,
        trueAirspeedKnots: Math.min(...ships.map(({ trueAirspeedKnots }) => trueAirspeedKnots)),
        writingBankDegrees: Math.min(...ships.map(({ writingBankDegrees }) => writingBankDegrees)),
        turningBankDegrees: Math.min(...ships.map(({ turningBankDegrees }) => turningBankDegrees)),
      };
}

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
