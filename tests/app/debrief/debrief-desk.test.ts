import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { effect } from '@preact/signals';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createDebriefDesk } from '../../../src/app/debrief/debrief-desk.ts';
import type { DebriefDesk } from '../../../src/app/debrief/desk-types.ts';
import { createJobShelf } from '../../../src/app/jobs/job-shelf.ts';
import { createPlanner } from '../../../src/app/planner.ts';
import { createReplay } from '../../../src/core/debrief/replay.ts';
import type { FlightEvent } from '../../../src/core/guidance/flight-event.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';
import { openFlightLog } from '../../../src/store/flight-log.ts';
import { saveFlight } from '../../../src/store/flights.ts';
import type { ReplayClient } from '../../../src/workers/replay-client.ts';
import { flyWord, worldFor } from '../../core/debrief/flown-word.ts';

const { events } = flyWord('I', worldFor(51));
const FIRST_MILLISECONDS = Date.UTC(2027, 5, 19, 17);

let database: Database;
let desk: DebriefDesk;

async function stored(id: string, startedAtMilliseconds: number, flown: readonly FlightEvent[]): Promise<void> {
  const flight = { id, jobId: DEMO_JOB.id, name: DEMO_JOB.name, kind: 'flight', jobFileText: writeJob(DEMO_JOB), setupText: '{}' } as const;
  await saveFlight(database, { ...flight, startedAtMilliseconds, endedAtMilliseconds: startedAtMilliseconds + 1 });
  const { log } = await openFlightLog(database, id);
  for (const event of flown) log.append({ monotonicSeconds: event.atSeconds, wallMilliseconds: event.wallMilliseconds, event });
  await log.close();
}

/** A replay on the page itself. */
function replayHere(): ReplayClient {
  let replay: ReturnType<typeof createReplay> | null = null;
  return {
    run: async (taken) => {
      replay = createReplay(taken);
      replay.advance(taken.length);
      return replay.replayed();
    },
    cuesAt: async (atSeconds) => replay?.cuesAt(atSeconds) ?? null,
    dispose: () => {},
  };
}

beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal('document', { visibilityState: 'visible' });
  vi.stubGlobal('requestAnimationFrame', (call: () => void) => setTimeout(call, 0));
  database = createDatabase();
  await stored('older', FIRST_MILLISECONDS, events);
  // The newer one is short, so that it is read sooner than the older.
  await stored('newer', FIRST_MILLISECONDS + 3_600_000, events.slice(0, 40));
  const jobs = createJobShelf(database, () => FIRST_MILLISECONDS);
  await jobs.refresh();
  const planner = createPlanner(async () => ({ planJob: async (job) => planJob(job), dispose: () => {} }));
  desk = createDebriefDesk({ database, jobs, jobId: DEMO_JOB.id, planner, startReplay: replayHere });
  await vi.waitFor(() => expect(desk.state.value.kind).toBe('open'));
});
afterEach(() => {
  desk.dispose();
  vi.unstubAllGlobals();
});

vi.mock('../../../src/app/debrief/read-chosen-files.ts', () => ({
  readChosenFiles: async (_jobId: string, [file]: readonly { readonly atMilliseconds: number }[]) => {
    const at = (milliseconds: number) => ({ timeMilliseconds: milliseconds, latitudeDegrees: 43.9, longitudeDegrees: 6.1, heightMetres: null, smoke: null });
    const { atMilliseconds } = file!;
    const track = { name: 'recorder', heightsAbove: 'sea', segmentStarts: [0], points: [at(atMilliseconds - 5000), at(atMilliseconds + 5000)] };
    return { ok: true, tracks: [{ id: `track-${atMilliseconds}`, track, shipIndex: null, seen: [] }], logs: [], warnings: [] };
  },
}));
const recorded = (atMilliseconds: number) => [{ atMilliseconds }] as never;

const openId = (): string => (desk.state.value.kind === 'open' ? desk.state.value.flight.id : desk.state.value.kind);

describe('the desk of a debrief', () => {
  it('opens the newest flight by itself, and lists both', () => {
    expect(openId()).toBe('newer');
    expect(desk.flights.value).toMatchObject({ kind: 'ready', flights: [{ id: 'newer' }, { id: 'older' }] });
  });

  it.each([
    ['older', 'newer'],
    ['newer', 'older'],
  ])('opens the flight chosen last when two are chosen quickly: %s, then %s', async (first, last) => {
    await Promise.all([desk.open(first), desk.open(last)]);
    await vi.waitFor(() => expect(desk.replayFraction.value).toBeNull());
    expect(openId()).toBe(last);
    expect(desk.ships.value.map(({ key }) => key)).toEqual([last]);
  });

  it('says which flight cannot be opened, and opens another afterwards', async () => {
    await desk.open('unheard-of');
    expect(desk.state.value).toMatchObject({ kind: 'failed', flightId: 'unheard-of' });
    await desk.open('older');
    await vi.waitFor(() => expect(desk.ships.value[0]?.debrief).not.toBeNull());
    expect(desk.ships.value[0]?.debrief?.flight.strokesFlown).toBeGreaterThan(0);
  });

  it('carries a lesson into the ship of the job, and takes it back', async () => {
    await desk.open('older');
    await vi.waitFor(() => expect(desk.lessons.value.length).toBeGreaterThan(0));
    const lesson = desk.lessons.value.find(({ kind }) => kind !== 'spreading')!;
    await desk.carry(lesson);
    expect(desk.done.value?.words).toContain('Lead');
    await desk.done.value?.undo();
    expect(desk.job.value?.ships).toEqual(DEMO_JOB.ships);
  });

  it('keeps a mark of smoke and takes it back', async () => {
    await desk.open('older');
    await desk.markSeen(
      'older',
      [
        { onSeconds: 3, offSeconds: 4 },
        { onSeconds: 1, offSeconds: 2 },
      ],
      'A mark.',
    );
    expect(desk.ships.value[0]?.seen.map(({ onSeconds }) => onSeconds)).toEqual([1, 3]);
    await desk.done.value?.undo();
    expect(desk.ships.value[0]?.seen).toEqual([]);
    expect(desk.notice.value).toBeNull();
  });

  it('shows a track of no flight beside each, never alone while a flight is read', async () => {
    await desk.importTracks(recorded(FIRST_MILLISECONDS - 86_400_000));
    const shown: string[][] = [];
    const end = effect(() => void shown.push(desk.ships.value.map(({ key }) => key)));
    await desk.open('older');
    end();
    const track = `track-${FIRST_MILLISECONDS - 86_400_000}`;
    expect(shown).toContainEqual(['older', track]);
    expect(shown).not.toContainEqual([track]);
    await desk.open('unheard-of');
    expect(desk.ships.value.map(({ key }) => key)).toEqual([track]);
  });

  it('shows an imported track beside the flight of its hour, and opens that flight', async () => {
    const { log } = await openFlightLog(database, 'third');
    for (const event of events.slice(0, 40)) log.append({ monotonicSeconds: event.atSeconds, wallMilliseconds: event.wallMilliseconds, event });
    await log.close();
    const later = FIRST_MILLISECONDS + 7_200_000;
    const flight = { id: 'third', jobId: DEMO_JOB.id, name: DEMO_JOB.name, kind: 'flight', jobFileText: writeJob(DEMO_JOB), setupText: '{}' } as const;
    await saveFlight(database, { ...flight, startedAtMilliseconds: later, endedAtMilliseconds: later + 1000 });
    await desk.refresh();
    await desk.open('newer');
    await desk.importTracks(recorded(later));
    expect(openId()).toBe('third');
    expect(desk.done.value?.words).toBe('A track was imported; the flight of that hour is open now.');
    const beside = (): string[] => desk.ships.value.filter(({ kind }) => kind === 'track').map(({ name }) => name);
    expect(beside()).toEqual(['recorder']);
    await desk.open('newer');
    expect(beside()).toEqual([]);
    // One of an hour at which nothing was flown stands beside every flight.
    await desk.importTracks(recorded(later + 86_400_000));
    expect(openId()).toBe('newer');
    expect(beside()).toEqual(['recorder']);
  });
});
