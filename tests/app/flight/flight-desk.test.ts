import 'fake-indexeddb/auto';
import { signal } from '@preact/signals';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { createFlightDesk, type FlightDesk } from '../../../src/app/flight/flight-desk.ts';
import { readSwitchSettings } from '../../../src/app/flight/switch-settings.ts';
import { createFlightWatch } from '../../../src/app/flight-watch.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';
import { readFlights, saveFlight } from '../../../src/store/flights.ts';
import type { StoredFlight } from '../../../src/store/schema.ts';

const NOW_MILLISECONDS = Date.UTC(2027, 5, 19, 17);
const BROKEN_OFF: StoredFlight = {
  id: 'f',
  jobId: 'lake-ondine',
  name: 'Lake Ondine',
  kind: 'flight',
  startedAtMilliseconds: NOW_MILLISECONDS - 60_000,
  endedAtMilliseconds: null,
  jobFileText: '{}',
  setupText: '{"kind":"device"}',
};

let database: Database;
beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  database = createDatabase();
});

async function deskAs(writer: 'writer' | 'reader', ...flights: readonly StoredFlight[]): Promise<FlightDesk> {
  for (const flight of flights) await saveFlight(database, flight);
  const watch = createFlightWatch(database, () => NOW_MILLISECONDS);
  const desk = createFlightDesk({
    database,
    flights: watch,
    storage: { writer: signal(writer) },
    nowMilliseconds: () => NOW_MILLISECONDS,
    showWrite: () => {},
  });
  expect(desk.state.value.kind).toBe('asking');
  await watch.refresh();
  await vi.waitFor(() => expect(desk.state.value.kind).not.toBe('asking'));
  return desk;
}

describe('the desk of a page that may fly', () => {
  it('is on the ground when no flight was broken off, or when the last one was left open half a day ago', async () => {
    expect((await deskAs('writer')).state.value).toEqual({ kind: 'grounded' });
    expect((await deskAs('writer', { ...BROKEN_OFF, startedAtMilliseconds: NOW_MILLISECONDS - 13 * 3_600_000 })).state.value).toEqual({ kind: 'grounded' });
  });

  it('leaves a flight to the tab that writes, and names its job', async () => {
    expect((await deskAs('reader', BROKEN_OFF)).state.value).toEqual({ kind: 'elsewhere', jobId: 'lake-ondine' });
  });

  it('says of a flight whose log holds no beginning that it is broken, and gives it up on request', async () => {
    const desk = await deskAs('writer', BROKEN_OFF);
    expect(desk.state.value).toMatchObject({ kind: 'broken', name: 'Lake Ondine', reason: 'Its log holds no beginning.' });
    desk.leave();
    expect(desk.state.value).toEqual({ kind: 'grounded' });
    await vi.waitFor(async () => expect((await readFlights(database)).flights[0]?.endedAtMilliseconds).toBe(NOW_MILLISECONDS));
  });

  it('does not go on with a recording', async () => {
    const desk = await deskAs('writer', { ...BROKEN_OFF, kind: 'replay', setupText: '{"kind":"recorded"}' });
    expect(desk.state.value).toMatchObject({ kind: 'broken', reason: 'A recording is not gone on with.' });
  });

  it('keeps a wiring of the smoke switch for the next page', async () => {
    const desk = await deskAs('writer');
    desk.setSwitch({ wiring: { kind: 'key', code: 'Space' }, action: 'while-pressed' });
    await vi.waitFor(async () => expect(await readSwitchSettings(database)).toEqual(desk.switchSettings.value));
  });
});
