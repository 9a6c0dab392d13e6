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
        trueAirspeedKnots: least(ships, 'trueAirspeedKnots'),
        writingBankDegrees: least(ships, 'writingBankDegrees'),
        turningBankDegrees: least(ships, 'turningBankDegrees'),
      };
}

/**
 * What all ships of a job can do: a formation flies at the airspeed of its slowest and the banks of its gentlest, so
 * that any of them can fly any part.
 */
export function commonLimits(ships: readonly JobShip[], options: JobOptions): ShipLimits {
  return {
    trueAirspeedMetresPerSecond: metresPerSecondFromKnots(least(ships, 'trueAirspeedKnots')),
    writingBankRadians: radiansFromDegrees(least(ships, 'writingBankDegrees')),
    turningBankRadians: radiansFromDegrees(least(ships, 'turningBankDegrees')),
    rollRateRadiansPerSecond: radiansFromDegrees(least(ships, 'rollRateDegreesPerSecond')),
    runInSeconds: options.runInSeconds,
    runOutSeconds: options.runOutSeconds,
  };
}

type Limit = 'trueAirspeedKnots' | 'writingBankDegrees' | 'turningBankDegrees' | 'rollRateDegreesPerSecond';

function least(ships: readonly JobShip[], limit: Limit): number {
  return ships.reduce((smallest, ship) => Math.min(smallest, ship[limit]), Infinity);
}
