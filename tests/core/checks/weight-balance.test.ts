import { expect, it } from 'vitest';
import { loadings } from '../../../src/core/checks/weight-balance.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';

const [LEAD] = DEMO_JOB.ships;
const BALANCE = {
  emptyPounds: 1200,
  emptyArmInches: 10,
  pilotPounds: 400,
  pilotArmInches: 20,
  fuelPoundsPerGallon: 6,
  fuelArmInches: 0,
  oilArmInches: 40,
  forwardLimitInches: 9,
  aftLimitInches: 16,
  greatestPounds: 2300,
};

it('is nothing without the pilot\u2019s own figures', () => {
  expect(loadings(LEAD!)).toBeNull();
});

it('takes the moments about the datum (FAA-H-8083-1B, chapter 2), with the tank full and empty', () => {
  const dry = { ...LEAD!, balance: BALANCE, smokeOilPounds: 0, fuelGallons: 0, fuelReserveMinutes: 0 };
  expect(loadings(dry)?.[0]).toEqual({ tanks: 'smoke tank full', pounds: 1600, armInches: 12.5, status: 'within' });
  const full = loadings({ ...dry, smokeOilPounds: 400 });
  expect(full?.[0]).toMatchObject({ pounds: 2000, armInches: 18, status: 'too far aft' });
  expect(full?.[1]?.status).toBe('within');
  expect(loadings({ ...dry, fuelGallons: 120 })?.[0]).toMatchObject({ pounds: 2320, status: 'too heavy' });
  expect(loadings({ ...dry, balance: { ...BALANCE, forwardLimitInches: 13 } })?.[1]?.status).toBe('too far forward');
});
