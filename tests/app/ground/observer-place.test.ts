import 'fake-indexeddb/auto';
import { getDistance, getRhumbLineBearing } from 'geolib';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { createObserverPlace } from '../../../src/app/ground/observer-place.ts';
import { crowdMiddle } from '../../../src/core/job/crowd-place.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';
import { readSetting, saveSetting } from '../../../src/store/settings.ts';

const { site } = DEMO_JOB;
const JOB: Job = {
  ...DEMO_JOB,
  viewingPlaces: [
    { name: 'East shore', latitudeDegrees: site.latitudeDegrees, longitudeDegrees: site.longitudeDegrees + 0.05, elevationFeet: null, weight: 1 },
  ],
};

let database: Database;
beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  database = createDatabase();
});

describe('where the observer stands', () => {
  const middle = crowdMiddle(JOB);
  const open = () => createObserverPlace(database, JOB, middle);

  it('is with the crowd until another place is chosen', () => {
    const place = open();
    expect(place.places).toEqual([site.name, 'East shore']);
    expect(place.eye.value).toEqual({ eastMetres: 0, northMetres: 0, upMetres: 0 });
  });

  it('is as far from the crowd\u2019s middle, and that way, as geolib has it', () => {
    const place = open();
    const at = { latitudeDegrees: middle.latitudeDegrees + 0.02, longitudeDegrees: middle.longitudeDegrees - 0.03 };
    const [from, to] = [middle, at].map(({ latitudeDegrees, longitudeDegrees }) => ({ latitude: latitudeDegrees, longitude: longitudeDegrees }));
    expect(place.stand({ kind: 'here', ...at })).toBeNull();
    const { eastMetres, northMetres } = place.eye.value;
    expect(Math.hypot(eastMetres, northMetres) / getDistance(from!, to!, 0.1)).toBeCloseTo(1, 2);
    expect(((Math.atan2(eastMetres, northMetres) * 180) / Math.PI + 360) % 360).toBeCloseTo(getRhumbLineBearing(from!, to!), 0);
    expect(place.position.value).toEqual(at);
    // Of two places of one weight the middle lies half way: the other is 2 km east, the site as far west.
    place.stand({ kind: 'place', index: 1 });
    const other = place.eye.value;
    expect(place.position.value?.longitudeDegrees).toBe(site.longitudeDegrees + 0.05);
    place.stand({ kind: 'place', index: 0 });
    expect(place.eye.value.eastMetres).toBeCloseTo(-other.eastMetres, 0);
    expect(other.eastMetres).toBeGreaterThan(1_500);
  });

  it('is remembered on this device, for this job', async () => {
    open().stand({ kind: 'place', index: 1 });
    await vi.waitFor(async () => expect(await readSetting(database, `observer-place/${JOB.id}`)).not.toBeUndefined());
    const again = open();
    await vi.waitFor(() => expect(again.standsAt.value).toEqual({ kind: 'place', index: 1 }));
    const other = createObserverPlace(database, { ...JOB, id: 'another' }, middle);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(other.standsAt.value).toEqual({ kind: 'crowd' });
  });

  it('is refused where nothing of the word can be seen, and stays', () => {
    const place = open();
    place.stand({ kind: 'place', index: 1 });
    expect(place.stand({ kind: 'here', latitudeDegrees: middle.latitudeDegrees + 2, longitudeDegrees: middle.longitudeDegrees })).toMatch(/100 km/);
    expect(place.stand({ kind: 'place', index: 7 })).not.toBeNull();
    expect(place.standsAt.value).toEqual({ kind: 'place', index: 1 });
  });

  it.each([
    { kind: 'place', index: 9 },
    { kind: 'here', latitudeDegrees: 'x', longitudeDegrees: 0 },
    { kind: 'here', latitudeDegrees: 91, longitudeDegrees: 0 },
    'crowd',
    null,
  ])('is with the crowd where %j is stored', async (stored) => {
    await saveSetting(database, `observer-place/${JOB.id}`, stored);
    const place = open();
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(place.standsAt.value).toEqual({ kind: 'crowd' });
  });
});
