import 'fake-indexeddb/auto';
import { beforeEach, expect, it } from 'vitest';
import { carryIntoKept } from '../../../src/app/debrief/carry-lesson.ts';
import { createKeptShelf, readKept, shipDifferences } from '../../../src/app/kept/kept-things.ts';
import { readLearnt } from '../../../src/app/kept/learnt-lessons.ts';
import type { Lesson } from '../../../src/core/debrief/lessons/lessons.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';
import type { StoredFlight } from '../../../src/store/schema.ts';
import { readSetting, saveSetting } from '../../../src/store/settings.ts';

let database: Database;
let count = 0;
let saved: Job | null = null;
const jobs = { save: async (job: Job): Promise<Job> => (saved = job) };
beforeEach(() => {
  database = createDatabase({ name: `kept-${(count += 1)}` });
  saved = null;
});

const [LEAD] = DEMO_JOB.ships;
const flightOf = (id: string, kind: StoredFlight['kind'] = 'flight', startedAtMilliseconds = 1): StoredFlight => ({
  id,
  jobId: DEMO_JOB.id,
  name: 'x',
  kind,
  startedAtMilliseconds,
  endedAtMilliseconds: startedAtMilliseconds + 1,
  jobFileText: '{}',
  setupText: '{}',
});
const valve = (value: number, sigma = 0.1): Lesson => ({ kind: 'valve-on', suggested: { value, sigma, count: 8 }, current: 0.8, from: 'seen-smoke' });

it('keeps a ship under one id, and says in what a job\u2019s copy differs from it', async () => {
  const shelf = createKeptShelf(database, () => 7);
  const id = await shelf.keepShip(LEAD!);
  const copy = { ...LEAD!, keptId: id, valveOnSeconds: 2, smokeOilPounds: 1 };
  expect(shipDifferences(copy, shelf.kept.value.ships[0]!.ship)).toEqual(['valveOnSeconds']);
  expect(await shelf.keepShip(copy)).toBe(id);
  expect((await readKept(database)).ships.map(({ ship }) => ship.valveOnSeconds)).toEqual([2]);
  await shelf.keepSite({ name: 'Pier', latitudeDegrees: 1, longitudeDegrees: 2, elevationFeet: 3, timeZone: 'UTC' });
  await shelf.keepSite({ name: 'Pier', latitudeDegrees: 1.5, longitudeDegrees: 2, elevationFeet: 3, timeZone: 'UTC' });
  expect((await readKept(database)).sites.map(({ latitudeDegrees }) => latitudeDegrees)).toEqual([1.5]);
  await shelf.forget('ships', id);
  expect((await readKept(database)).ships).toEqual([]);
});

it('shows nothing kept that it cannot read, and does not fall over it', async () => {
  await saveSetting(database, 'kept-things', {
    ships: [{ id: 'a', savedAtMilliseconds: 1, ship: { name: 'x' } }, 7],
    sites: 'none',
    crew: [{ id: 'c', name: 'One', role: '', telephone: '' }],
  });
  expect(await readKept(database)).toEqual({ ships: [], sites: [], crew: [{ id: 'c', name: 'One', role: '', telephone: '' }], oils: [] });
});

it('weighs a lesson over flights into the job and the kept ship, and takes it back whole', async () => {
  const shelf = createKeptShelf(database, () => 7);
  const keptId = await shelf.keepShip(LEAD!);
  const before: Job = { ...DEMO_JOB, ships: [{ ...LEAD!, keptId }] };
  const carry = (value: number, flight: StoredFlight) => carryIntoKept({ database, jobs, before, shipIndex: 0, lesson: valve(value), flight });
  const first = await carry(1.2, flightOf('one', 'flight', 1));
  expect(saved?.ships[0]?.valveOnSeconds).toBe(1.2);
  const second = await carry(1.6, flightOf('two', 'flight', 2));
  expect(saved?.ships[0]?.valveOnSeconds).toBe(1.4);
  expect((await readKept(database)).ships[0]?.ship.valveOnSeconds).toBe(1.4);
  expect(second.words).toContain('weighed over 2 flights');
  expect(second.learnt.map(({ value }) => value)).toEqual([1.2, 1.6]);
  // The same flight taught again counts once.
  await carry(1.6, flightOf('two', 'flight', 2));
  expect(await readLearnt(database)).toHaveLength(2);
  await second.undo();
  expect(await readLearnt(database)).toHaveLength(1);
  expect((await readKept(database)).ships[0]?.ship.valveOnSeconds).toBe(1.2);
  await first.undo();
  expect(await readLearnt(database)).toEqual([]);
  expect((await readKept(database)).ships[0]?.ship.valveOnSeconds).toBe(0.8);
});

it.each(['rehearsal', 'replay'] as const)('learns nothing from a %s', async (kind) => {
  await expect(carryIntoKept({ database, jobs, before: DEMO_JOB, shipIndex: 0, lesson: valve(3), flight: flightOf('r', kind) })).rejects.toThrow(
    /teaches nothing/,
  );
  expect(await readSetting(database, 'lessons/learnt')).toBeNull();
  expect(saved).toBeNull();
});
