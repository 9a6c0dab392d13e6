import 'fake-indexeddb/auto';
import { signal } from '@preact/signals';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { BeginFlight, FlightDesk } from '../../../src/app/flight/flight-desk.ts';
import { createPreflight, type Preflight } from '../../../src/app/flight/preflight.ts';
import { createPlanner } from '../../../src/app/planner.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { parseJob } from '../../../src/core/job/parse-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { NO_SWITCH } from '../../../src/app/flight/switch-settings.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';
import { readSmokeCalibration, saveSmokeCalibration } from '../../../src/app/smoke-settings.ts';
import { createDatabase } from '../../../src/store/database.ts';
import type { WriterState } from '../../../src/store/one-writer.ts';

const NOW_MILLISECONDS = Date.UTC(2027, 5, 19, 17);

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  // A device with neither sound, nor battery, nor position: what is chosen on the ground asks for none of them.
  const page = Object.assign(new EventTarget(), { visibilityState: 'visible' });
  vi.stubGlobal('navigator', {});
  vi.stubGlobal('document', page);
  vi.stubGlobal('window', new EventTarget());
});

let open: Preflight[] = [];
afterEach(() => {
  for (const preflight of open) preflight.end();
  open = [];
  vi.unstubAllGlobals();
});

function preflightOf(job: Job, writer: WriterState = 'writer') {
  const begun: BeginFlight[] = [];
  const flightDesk = {
    begin: (flight: BeginFlight) => void begun.push(flight),
    switchSettings: signal(NO_SWITCH),
    setSwitch: () => {},
  } as unknown as FlightDesk;
  const preflight = createPreflight({
    job,
    flightDesk,
    planner: createPlanner(async () => ({ planJob: async (asked: Job) => planJob(asked), dispose: () => {} })),
    writer: signal(writer),
    database: createDatabase(),
    shell: signal('unsupported'),
    persistence: signal(null),
    nowMilliseconds: () => NOW_MILLISECONDS,
  });
  open.push(preflight);
  return { preflight, begun };
}

const planned = (preflight: Preflight): Promise<void> => vi.waitFor(() => expect(preflight.planned.value).not.toBeNull(), { timeout: 20_000 });

describe('what is chosen before a flight', () => {
  it('cannot be started while it is being planned, then can, and begins what was chosen', async () => {
    const { preflight, begun } = preflightOf(DEMO_JOB);
    expect(preflight.obstacle.value).toBe('Planning');
    preflight.start();
    expect(begun).toEqual([]);
    await planned(preflight);
    expect(preflight.obstacle.value).toBeNull();
    preflight.windKnots.value = 31;
    preflight.start();
    expect(begun).toHaveLength(1);
    expect(begun[0]?.source).toMatchObject({ kind: 'rehearsal', windKnots: 31, skill: 'ordinary', flownBy: 'machine', speed: 1 });
    expect(parseJob(begun[0]?.jobFileText ?? '')).toEqual({ ok: true, value: DEMO_JOB });
  });

  it('takes along until when the smoke reads, as Draw says it by the smoke measured on this tablet', async () => {
    const measured = { horizontalSquareMetresPerSecond: 13, sigmaSquareMetresPerSecond: 2 };
    await saveSmokeCalibration(createDatabase(), measured);
    const { preflight, begun } = preflightOf(DEMO_JOB);
    await planned(preflight);
    await vi.waitFor(() => expect(preflight.checks.value).not.toBeNull());
    // Read after the preflight's own reading, which is then in.
    await readSmokeCalibration(createDatabase());
    preflight.start();
    const made = planJob(DEMO_JOB);
    if (!made.ok) throw new Error('the demo can be planned');
    await vi.waitFor(() => expect(begun[0]?.setup.readsUntil).toEqual(readingOf(made.value, measured).window.until));
    expect(begun[0]?.setup.readsUntil).not.toEqual(readingOf(made.value, null).window.until);
  });

  it('offers a wind that the forecast does not know of', () => {
    const { preflight } = preflightOf(DEMO_JOB);
    expect(preflight.windKnots.value).toBe((preflight.forecast?.knots ?? Number.NaN) + 10);
    expect(preflight.windFromDegrees.value).toBe(((preflight.forecast?.fromDegrees ?? 0) + 20) % 360);
  });

  it('fixes the datum of one ship at its first smoke; of several nothing is chosen until a hand chooses the ship and the datum', async () => {
    expect(preflightOf(DEMO_JOB).preflight.datum.value).toEqual({ kind: 'first-smoke' });
    const [ship] = DEMO_JOB.ships;
    const { preflight, begun } = preflightOf({ ...DEMO_JOB, ships: [ship!, { ...ship!, name: 'Second' }] });
    await planned(preflight);
    expect([preflight.shipIndex.value, preflight.datum.value, preflight.obstacle.value]).toEqual([null, null, 'Choose which ship this is.']);
    preflight.shipIndex.value = 1;
    expect(preflight.obstacle.value).toBe('Choose the datum.');
    preflight.start();
    expect(begun).toEqual([]);
    preflight.datum.value = { kind: 'time-hack', afterSeconds: 600 };
    expect(preflight.obstacle.value).toBeNull();
    preflight.start();
    expect(begun[0]?.setup.datum).toEqual({ kind: 'at-time', wallMilliseconds: NOW_MILLISECONDS + 600_000, called: true });
    expect(begun[0]?.setup.shipName).toBe('Second');
  });

  it('is left to the tab that writes', async () => {
    const { preflight } = preflightOf(DEMO_JOB, 'reader');
    await planned(preflight);
    expect(preflight.obstacle.value).toContain('open in another tab');
  });

  it('says why a job cannot be planned, and begins nothing', async () => {
    const { preflight, begun } = preflightOf({ ...DEMO_JOB, text: '' });
    await planned(preflight);
    expect(preflight.obstacle.value).toMatch(/text|letter|word/iu);
    preflight.start();
    expect(begun).toEqual([]);
  });

  it('asks for a recording before one is flown again', async () => {
    const { preflight, begun } = preflightOf(DEMO_JOB);
    await planned(preflight);
    preflight.source.value = 'recorded';
    expect(preflight.obstacle.value).toBe('Choose a recording first.');
    preflight.start();
    expect(begun).toEqual([]);
  });
});
