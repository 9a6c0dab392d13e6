import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { effect } from '@preact/signals';
import { beforeEach, describe, expect, it } from 'vitest';
import { createJobEditor, type JobEditor } from '../../../src/app/draw/job-editor.ts';
import { createJobVersions } from '../../../src/app/draw/job-versions.ts';
import { createJobShelf } from '../../../src/app/jobs/job-shelf.ts';
import type { JobNews, JobShelf } from '../../../src/app/jobs/shelf-types.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { parseJob } from '../../../src/core/job/parse-job.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';
import { readJobs } from '../../../src/store/jobs.ts';
import { type JobVersion, readVersions } from '../../../src/store/job-versions.ts';
import { StoreFault } from '../../../src/store/store-fault.ts';
import { uniformFrom } from '../../flight/random.ts';

/** Fifty random interleavings, as many of the longer run as are asked for. */
const RUNS = Number(process.env['QUILLWIND_INTERLEAVINGS'] ?? 50);
const SEED = Number(process.env['QUILLWIND_SEED'] ?? 21);

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

interface Tab {
  readonly database: Database;
  readonly shelf: JobShelf;
  readonly editor: JobEditor;
  hearing: boolean;
}

/** Tabs over one database, that hear of each other's saves unless told not to; only the first may write all else. */
async function openTabs(count: number): Promise<readonly Tab[]> {
  const listeners: { readonly tab: number; readonly listener: () => void | Promise<void> }[] = [];
  const tabs: Tab[] = [];
  for (let tab = 0; tab < count; tab += 1) {
    const news: JobNews = {
      tell: () => {
        for (const each of listeners) if (each.tab !== tab && tabs[each.tab]?.hearing === true) void each.listener();
      },
      onTold: (listener) => void listeners.push({ tab, listener }),
    };
    const database = createDatabase(tab === 0 ? {} : { permitWriting: () => Promise.reject(new StoreFault('read-only')) });
    const shelf = createJobShelf(database, () => tab + 1, news);
    await shelf.refresh();
    const editor = createJobEditor(shelf.find(DEMO_JOB.id)!, {
      save: (job, base) => shelf.save(job, base),
      fault: (job) => (parseJob(JSON.stringify(job)).ok ? null : 'not whole'),
      nowMilliseconds: () => performance.now(),
      after: (milliseconds, call) => {
        const timer = setTimeout(call, milliseconds / 100);
        return () => clearTimeout(timer);
      },
    });
    effect(() => {
      void shelf.state.value;
      const latest = shelf.find(DEMO_JOB.id);
      if (latest !== null) editor.takeIn(latest);
    });
    tabs.push({ database, shelf, editor, hearing: true });
  }
  return tabs;
}

const settled = async ({ editor }: Tab): Promise<void> => {
  await editor.flush();
  expect(editor.saveState.value.kind).toBe('saved');
};
const pause = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));
const storedJob = async (database: Database): Promise<Job> => (await readJobs(database)).jobs.find(({ id }) => id === DEMO_JOB.id)!;

describe('two tabs on one job', () => {
  it('the second sees the first one\u2019s edits as they are stored, and stores its own beside them', async () => {
    const [one, two] = (await openTabs(2)) as [Tab, Tab];
    one.editor.edit('text', (job) => ({ ...job, text: 'FIRST' }));
    await settled(one);
    await expect.poll(() => two.editor.job.value.text).toBe('FIRST');
    two.editor.edit('notes', (job) => ({ ...job, notes: 'from the second' }));
    await settled(two);
    await expect.poll(() => one.editor.job.value.notes).toBe('from the second');
    expect(await storedJob(one.database)).toMatchObject({ text: 'FIRST', notes: 'from the second' });
  });

  it('a stale copy is never written: a tab that heard nothing changes only what it edited', async () => {
    const [one, two] = (await openTabs(2)) as [Tab, Tab];
    two.hearing = false;
    one.editor.edit('text', (job) => ({ ...job, text: 'FIRST' }));
    await settled(one);
    two.editor.edit('notes', (job) => ({ ...job, notes: 'late' }));
    await settled(two);
    expect(await storedJob(one.database)).toMatchObject({ text: 'FIRST', notes: 'late' });
    expect(two.editor.job.value.text).toBe('FIRST');
    // Nor does undo bring the old one back.
    two.editor.undo();
    await settled(two);
    expect(await storedJob(one.database)).toMatchObject({ text: 'FIRST', notes: DEMO_JOB.notes });
  });

  it('offers both versions of a field that both edited, and puts in the one that is chosen', async () => {
    const [one, two] = (await openTabs(2)) as [Tab, Tab];
    two.hearing = false;
    one.editor.edit('text', (job) => ({ ...job, text: 'FIRST' }));
    two.editor.edit('text', (job) => ({ ...job, text: 'SECOND' }));
    await settled(one);
    await settled(two);
    const versions = createJobVersions(two.database, DEMO_JOB.id, two.editor);
    await versions.refresh();
    expect(versions.choices.value).toMatchObject([{ name: 'words', storedWords: 'FIRST', otherWords: 'SECOND' }]);
    expect((await storedJob(one.database)).text).toBe('FIRST');
    await versions.take(versions.choices.value[0]!);
    expect((await storedJob(one.database)).text).toBe('SECOND');
    expect(await readVersions(one.database, DEMO_JOB.id)).toEqual([]);
  });

  it('keeps an edit of a job that was deleted in the other tab', async () => {
    const [one, two] = (await openTabs(2)) as [Tab, Tab];
    two.hearing = false;
    await one.shelf.remove(DEMO_JOB.id);
    two.editor.edit('notes', (job) => ({ ...job, notes: 'still wanted' }));
    await settled(two);
    expect((await storedJob(one.database)).notes).toBe('still wanted');
  });

  it(`in ${RUNS} random interleavings every edit of either stands, was replaced by one who saw it, or is offered (seed ${SEED})`, async () => {
    const uniform = uniformFrom(SEED);
    let offered = 0;
    for (let run = 0; run < RUNS; run += 1) {
      globalThis.indexedDB = new IDBFactory();
      const tabs = await openTabs(2);
      /** Every edit with what its tab saw in the field when it was typed. */
      const edits: { readonly field: Field; readonly value: unknown; readonly saw: unknown }[] = [];
      for (let step = 0; step < 14; step += 1) {
        const tab = tabs[uniform() < 0.5 ? 0 : 1]!;
        const choice = uniform();
        if (choice < 0.65) {
          const field = FIELDS[Math.floor(uniform() * FIELDS.length)]!;
          const value = field.value(run * 100 + step);
          edits.push({ field, value, saw: field.read(tab.editor.job.value) });
          tab.editor.edit(`edit ${step}`, (job) => field.put(job, value));
        } else if (choice < 0.75) tab.hearing = !tab.hearing;
        else if (choice < 0.85) void tab.editor.flush();
        else await pause(uniform() * 12);
      }
      for (const tab of tabs) await settled(tab);
      for (const tab of tabs) await tab.shelf.refresh();
      for (const tab of tabs) await settled(tab);
      const stored = await storedJob(tabs[0]!.database);
      const versions = await readVersions(tabs[0]!.database, DEMO_JOB.id);
      offered += versions.length;
      for (const { field, value } of edits) {
        const stands = field.read(stored) === value;
        const replaced = edits.some((later) => later.field === field && later.saw === value);
        expect(stands || replaced || isOffered(versions, value), `seed ${SEED}, run ${run}: ${field.name} ${String(value)}`).toBe(true);
      }
      for (const tab of tabs) expect(tab.editor.job.value, `run ${run}`).toEqual(stored);
    }
    // A run in which nothing ever met would show nothing.
    expect(offered).toBeGreaterThan(RUNS / 10);
  });
});

interface Field {
  readonly name: string;
  readonly value: (number: number) => unknown;
  readonly read: (job: Job) => unknown;
  readonly put: (job: Job, value: unknown) => Job;
}

const FIELDS: readonly Field[] = [
  { name: 'text', value: (number) => `W${number}`, read: ({ text }) => text, put: (job, value) => ({ ...job, text: String(value) }) },
  { name: 'notes', value: (number) => `n${number}`, read: ({ notes }) => notes, put: (job, value) => ({ ...job, notes: String(value) }) },
  {
    name: 'elevation',
    value: (number) => 100 + number / 10,
    read: ({ site }) => site.elevationFeet,
    put: (job, value) => ({ ...job, site: { ...job.site, elevationFeet: Number(value) } }),
  },
  {
    name: 'fuel',
    value: (number) => 20 + number / 100,
    read: ({ ships }) => ships[0]!.fuelGallons,
    put: (job, value) => ({ ...job, ships: job.ships.map((ship, index) => (index === 0 ? { ...ship, fuelGallons: Number(value) } : ship)) }),
  },
];

function isOffered(versions: readonly JobVersion[], value: unknown): boolean {
  return versions.some(({ ours, theirs }) => [...Object.values(ours), ...Object.values(theirs)].includes(value));
}
