import { expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { jobDifferences } from '../../../src/app/draw/job-differences.ts';
import { withShips } from '../../../src/ui/draw/entries/ShipsSettings.tsx';

it('tells two jobs apart in words, and says nothing of equal ones', () => {
  expect(jobDifferences(DEMO_JOB, structuredClone(DEMO_JOB))).toEqual([]);
  const other = {
    ...DEMO_JOB,
    text: 'SAILS',
    letters: { ...DEMO_JOB.letters, heightFeet: 3000 },
    ships: DEMO_JOB.ships.map((ship) => ({ ...ship, writingBankDegrees: 60 })),
    winds: DEMO_JOB.winds.slice(1),
    layer: { ...DEMO_JOB.layer, temperatureCelsius: -4 },
  };
  expect(jobDifferences(DEMO_JOB, other)).toEqual([
    'words: SAIL to SAILS',
    'temperature, \u00b0C: not given to -4',
    'letter height, ft: 3,937 to 3,000',
    'winds',
    'ship 1, bank while writing, \u00b0: 45 to 60',
  ]);
});

it('adds ships like the lead and takes out the last ones', () => {
  const three = withShips(DEMO_JOB, 3);
  expect(three.ships.map(({ name }) => name)).toEqual(['Lead', 'Two', 'Three']);
  expect(three.ships[2]?.trueAirspeedKnots).toBe(DEMO_JOB.ships[0]?.trueAirspeedKnots);
  expect(withShips(three, 1).ships).toEqual(DEMO_JOB.ships);
  expect(withShips(three, 3)).toBe(three);
  expect(jobDifferences(DEMO_JOB, three)).toEqual(['ships: 1 to 3']);
});
