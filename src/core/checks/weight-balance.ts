import type { JobShip } from '../job/job.ts';

/** A ship loaded in one way, by the pilot's own figures. */
export interface Loading {
  readonly tanks: 'smoke tank full' | 'smoke tank empty' | 'smoke tank empty, fuel at the reserve';
  readonly pounds: number;
  readonly armInches: number;
  readonly status: 'within' | 'too heavy' | 'too far forward' | 'too far aft';
}

/**
 * Weight and centre of gravity (sum of moments over sum of weights: FAA-H-8083-1B, Aircraft Weight and Balance Handbook,
 * chapter 2) with the smoke tank full, empty, and empty with the fuel at its reserve. Null where the pilot has given no
 * figures. Worked: 1,200 lb at 10 in and 400 lb at 20 in: 1,600 lb at 12.5 in.
 */
export function loadings(ship: JobShip): Loading[] | null {
  const { balance, smokeOilPounds, fuelGallons, fuelGallonsPerHour, fuelReserveMinutes } = ship;
  if (balance === null) return null;
  const { emptyPounds, emptyArmInches, pilotPounds, pilotArmInches, fuelPoundsPerGallon, fuelArmInches, oilArmInches } = balance;
  const loaded = (tanks: Loading['tanks'], oilPounds: number, gallons: number): Loading => {
    const parts = [
      [emptyPounds, emptyArmInches],
      [pilotPounds, pilotArmInches],
      [oilPounds, oilArmInches],
      [gallons * fuelPoundsPerGallon, fuelArmInches],
    ] as const;
    const pounds = parts.reduce((sum, [weight]) => sum + weight, 0);
    const armInches = pounds > 0 ? parts.reduce((sum, [weight, arm]) => sum + weight * arm, 0) / pounds : 0;
    const status =
      pounds > balance.greatestPounds
        ? 'too heavy'
        : armInches < balance.forwardLimitInches
          ? 'too far forward'
          : armInches > balance.aftLimitInches
            ? 'too far aft'
            : 'within';
    return { tanks, pounds, armInches, status };
  };
  return [
    loaded('smoke tank full', smokeOilPounds, fuelGallons),
    loaded('smoke tank empty', 0, fuelGallons),
    loaded('smoke tank empty, fuel at the reserve', 0, (fuelGallonsPerHour * fuelReserveMinutes) / 60),
  ];
}
