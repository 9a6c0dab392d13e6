import 'fake-indexeddb/auto';
import { signal } from '@preact/signals';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type GroundDesk, openGroundDesk } from '../../../src/app/ground/ground-desk.ts';
import { AS_BRIEFED } from '../../../src/app/ground/ground-hanging.ts';
import type { LinkDesk } from '../../../src/app/link/link-desk.ts';
import { createPlanner } from '../../../src/app/planner.ts';
import { saveSmokeCalibration } from '../../../src/app/smoke-settings.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { readingOf } from '../../../src/core/sky/reading-of.ts';
import type { GroundFact } from '../../../src/core/wire/link-messages.ts';
import { newShip } from '../../../src/link/ship-seen.ts';
import type { RoomView } from '../../../src/link/link-room.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';

let database: Database;
let desk: GroundDesk;
let told: GroundFact[] = [];
const room = signal<RoomView | null>(null);

function open(job: Job): GroundDesk {
  const link = { room, observe: () => () => {}, tell: (fact: GroundFact) => void told.push(fact) } as unknown as LinkDesk;
  const planner = createPlanner(async () => ({ planJob: async (asked) => planJob(asked), dispose: () => {} }));
  return openGroundDesk(job, { database, link, planner });
}

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  vi.stubGlobal('document', { visibilityState: 'visible', addEventListener: () => {}, removeEventListener: () => {} });
  database = createDatabase();
  told = [];
});
afterEach(() => {
  desk.end();
  room.value = null;
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('the desk of the ground', () => {
  it('says of the reading what every screen says: by the visibility of the day and the smoke as measured', async () => {
    const measured = { horizontalSquareMetresPerSecond: 14, sigmaSquareMetresPerSecond: 2 };
    await saveSmokeCalibration(database, measured);
    const hazy: Job = { ...DEMO_JOB, conditions: { altimeterHectopascals: null, visibilityStatuteMiles: 4, clouds: [] } };
    desk = open(hazy);
    await vi.waitFor(() => expect(desk.plan.value.kind).toBe('planned'));
    const made = planJob(hazy);
    if (!made.ok || desk.plan.value.kind !== 'planned') throw new Error('no plan');
    expect(desk.plan.value.value.window).toEqual(readingOf(made.value, measured).window);
    expect(desk.plan.value.value.window).not.toEqual(readingOf({ ...made.value, air: { ...made.value.air, visibilityMetres: null } }, measured).window);
    expect(desk.plan.value.value.window).not.toEqual(readingOf(made.value, null).window);
  });

  it('says in the words of Draw why there is no plan', async () => {
    desk = open({ ...DEMO_JOB, text: '\u4e2d' });
    await vi.waitFor(() => expect(desk.plan.value.kind).toBe('none'));
    expect(desk.plan.value).toMatchObject({ kind: 'none', reason: expect.stringContaining('\u4e2d') as string });
  });

  it('counts from the plan, then from a hack heard on the radio, and writes down what is rated', async () => {
    desk = open(DEMO_JOB);
    await vi.waitFor(() => expect(desk.datum.value?.source).toBe('plan'));
    desk.takeHack(180);
    expect(desk.datum.value?.source).toBe('radio');
    expect(desk.sinceDatumSeconds.value).toBeCloseTo(-180, 0);
    desk.moveDatum(5);
    expect(desk.sinceDatumSeconds.value).toBeCloseTo(-185, 0);
    desk.rate(0, 'S', 'reads');
    desk.call('stop', null);
    expect(told.map(({ kind }) => kind)).toEqual(['rated', 'call']);
    await vi.waitFor(() => expect(desk.book.own.value?.entries.map(({ kind }) => kind)).toEqual(['hack', 'hack', 'rated', 'called']));
    desk.goByPlan();
    expect(desk.datum.value?.source).toBe('plan');
  });

  it('hangs by the figures that stand in the log, also when it is opened again', async () => {
    const kept = (): unknown[] => desk.book.own.value?.entries.flatMap((entry) => (entry.kind === 'hung' ? [entry.figures] : [])) ?? [];
    const openAgain = async (): Promise<void> => {
      const count = desk.book.own.value?.entries.length ?? 0;
      desk.end();
      desk = open(DEMO_JOB);
      await vi.waitFor(() => expect(desk.book.own.value?.entries.length).toBe(count));
    };
    desk = open(DEMO_JOB);
    await vi.waitFor(() => expect(desk.book.own.value).not.toBeNull());
    expect(desk.takeFigures('098 224 0')).toBeNull();
    const { wind } = desk.hung.value;
    await vi.waitFor(() => expect(kept()).toEqual(['098 224 0']));
    await openAgain();
    expect(desk.hung.value).toEqual({ source: 'radio', wind, moved: null });
    desk.hangAsBriefed();
    await vi.waitFor(() => expect(kept()).toEqual(['098 224 0', null]));
    expect(desk.hung.value).toEqual(AS_BRIEFED);
    await openAgain();
    expect(desk.hung.value).toEqual(AS_BRIEFED);
    desk.withdraw(1);
    expect(desk.hung.value.source).toBe('radio');
    desk.withdraw(0);
    expect(desk.hung.value).toEqual(AS_BRIEFED);
  });

  it('goes by a datum that moves all the time, and writes it down when it stands or something is written by it', async () => {
    vi.useFakeTimers({ toFake: ['Date', 'performance', 'setInterval', 'clearInterval'] });
    const lead = (datumMilliseconds: number): void => {
      const clock = { leastDelayMilliseconds: 0, answered: { offsetMilliseconds: 0, errorMilliseconds: 0 } };
      room.value = { ships: [{ ...newShip('lead'), shipIndex: 0, clock, datumMilliseconds }] } as unknown as RoomView;
    };
    const written = (): string[] => desk.book.own.value?.entries.map(({ kind }) => kind) ?? [];
    desk = open(DEMO_JOB);
    await vi.waitFor(() => expect([desk.book.own.value === null, desk.datum.value?.source]).toEqual([false, 'plan']));
    const first = Date.now() + 600_000;
    let datumMilliseconds = first;
    const move = (): void => {
      for (let step = 0; step < 30; step += 1) {
        datumMilliseconds -= 3000;
        lead(datumMilliseconds);
        vi.advanceTimersByTime(500);
        expect(desk.datum.value?.datumMilliseconds).toBeCloseTo(datumMilliseconds, -2);
      }
    };
    lead(first);
    expect(written()).toEqual(['hack']);
    move();
    expect(written()).toEqual(['hack']);
    vi.advanceTimersByTime(6000);
    expect(written()).toEqual(['hack', 'hack']);
    expect(desk.book.own.value?.entries[1]).toMatchObject({ source: 'link', datumMilliseconds });
    move();
    desk.rate(0, 'S', 'reads');
    vi.advanceTimersByTime(6000);
    expect(written()).toEqual(['hack', 'hack', 'hack', 'rated']);
    expect(desk.book.own.value?.entries[2]).toMatchObject({ datumMilliseconds });
  });

  it('tells a rating days from the first smoke without its time, so that nobody drops it', async () => {
    desk = open({ ...DEMO_JOB, readTime: new Date(Date.now() + 20 * 86_400_000).toISOString() });
    await vi.waitFor(() => expect(desk.datum.value?.source).toBe('plan'));
    desk.rate(0, 'S', 'reads');
    desk.takeHack(60);
    desk.rate(0, 'S', 'reads');
    expect(told).toMatchObject([{ sinceDatumSeconds: null }, { sinceDatumSeconds: expect.closeTo(-60, 0) as number }]);
  });
});
