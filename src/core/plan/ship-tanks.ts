import type { JobShip } from '../job/job.ts';
import type { ShipTanks } from './budget.ts';
import { kilogramsFromPounds, litresFromGallons } from '../units/quantity.ts';

/** A ship's tanks for its budget. */
export function tanksOfShip(ship: JobShip): ShipTanks {
  return {
    smokeOilKilograms: kilogramsFromPounds(ship.smokeOilPounds),
    fuelLitres: litresFromGallons(ship.fuelGallons),
    fuelLitresPerSecond: litresFromGallons(ship.fuelGallonsPerHour) / 3600,
    fuelReserveSeconds: ship.fuelReserveMinutes * 60,
    otherFlyingSeconds: ship.otherFlyingMinutes === null ? null : ship.otherFlyingMinutes * 60,
  };
}
