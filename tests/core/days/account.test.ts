import { expect, it } from 'vitest';
import { accountOf } from '../../../src/core/days/account.ts';
import type { LogbookEntry } from '../../../src/core/debrief/logbook.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';

const ENTRY: LogbookEntry = {
  flightId: 'f',
  jobId: DEMO_JOB.id,
  name: '',
  text: 'SAIL',
  shipName: 'Lead',
  kind: 'flight',
  startedAtMilliseconds: 5,
  flownSeconds: 3600,
  smokeSeconds: 170,
  oilKilograms: 45.359237,
  strokesFlown: 5,
  strokesPlanned: 5,
  complete: true,
  read: 'yes',
};

it('adds up the real flights of the job: hours, oil, fuel by the ship\u2019s own burn', () => {
  const account = accountOf(DEMO_JOB, [
    ENTRY,
    { ...ENTRY, flightId: 'g', startedAtMilliseconds: 1, flownSeconds: 1800 },
    { ...ENTRY, kind: 'rehearsal' },
    { ...ENTRY, jobId: 'other' },
  ]);
  expect(account.lines.map(({ flightId }) => flightId)).toEqual(['g', 'f']);
  // An avoirdupois pound is 0.45359237 kg exactly; 14 gallons an hour.
  expect(account.oilPounds).toBeCloseTo(200, 9);
  expect(account.hours).toBeCloseTo(1.5, 9);
  expect(account.fuelGallons).toBeCloseTo(21, 9);
});

it('invents no fuel where nobody said what the ship burns', () => {
  expect(accountOf({ ...DEMO_JOB, notEntered: ['ships.fuelGallonsPerHour'] }, [ENTRY]).fuelGallons).toBeNull();
});
