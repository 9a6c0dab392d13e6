import type { JobShip } from '../../core/job/job.ts';

const SECONDS_PER_HOUR = 3600;
const MINUTES_PER_HOUR = 60;

/**
 * Fuel by the clock: what was carried less what the ship burns in the seconds since the start, US gallons. `said` names the
 * least that it has come to: the bingo fuel, else the reserve; empty above it. No gauge is read: the pilot's own decides.
 */
export function fuelLeftGallons(
  { fuelGallons, fuelGallonsPerHour, fuelReserveMinutes, bingoFuelGallons }: JobShip,
  sinceStartSeconds: number,
): { readonly gallons: number; readonly said: '' | 'bingo' | 'into the reserve' } {
  const gallons = Math.max(0, fuelGallons - (fuelGallonsPerHour * Math.max(0, sinceStartSeconds)) / SECONDS_PER_HOUR);
  if (gallons <= (fuelGallonsPerHour * fuelReserveMinutes) / MINUTES_PER_HOUR) return { gallons, said: 'into the reserve' };
  return { gallons, said: bingoFuelGallons !== null && gallons <= bingoFuelGallons ? 'bingo' : '' };
}
