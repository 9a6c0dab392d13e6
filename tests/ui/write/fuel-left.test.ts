import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { fuelLeftGallons } from '../../../src/ui/write/fuel-left.ts';

const [SHIP] = DEMO_JOB.ships;
const ship = { ...SHIP!, fuelGallons: 40, fuelGallonsPerHour: 12, fuelReserveMinutes: 30, bingoFuelGallons: 15 };

describe('fuel by the clock', () => {
  it('is what was carried less the burn', () => {
    expect(fuelLeftGallons(ship, 0)).toEqual({ gallons: 40, said: '' });
    expect(fuelLeftGallons(ship, 3600)).toEqual({ gallons: 28, said: '' });
    expect(fuelLeftGallons(ship, -5).gallons).toBe(40);
  });

  it('says when it has come to the bingo fuel, and when into the reserve', () => {
    expect(fuelLeftGallons(ship, (25.1 / 12) * 3600).said).toBe('bingo');
    expect(fuelLeftGallons(ship, (34 / 12) * 3600)).toEqual({ gallons: 6, said: 'into the reserve' });
    expect(fuelLeftGallons({ ...ship, bingoFuelGallons: null }, (25 / 12) * 3600).said).toBe('');
    expect(fuelLeftGallons(ship, 100_000)).toEqual({ gallons: 0, said: 'into the reserve' });
  });
});
