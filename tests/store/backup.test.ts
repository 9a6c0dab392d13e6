import 'fake-indexeddb/auto';
import { fc } from '../property.ts';
import { beforeEach, describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { type BackupEntry, lineFromEntry, readLine } from '../../src/store/backup/backup-line.ts';
import { backupStream, readBackup } from '../../src/store/backup/backup-stream.ts';
import { mergedSetting } from '../../src/store/backup/merge-setting.ts';
import { readEverything } from '../../src/store/backup/read-everything.ts';
import { type Restored, restorePart } from '../../src/store/backup/restore-part.ts';
import { createDatabase, type Database } from '../../src/store/database.ts';
import { addJobs, readJobs, saveJob } from '../../src/store/jobs.ts';
import { readFlights, saveFlight } from '../../src/store/flights.ts';
import { readOverlay, saveOverlay } from '../../src/store/overlays.ts';
import { readLog } from '../../src/store/read-log.ts';
import { storedFromLogRow } from '../../src/store/read-row.ts';
import type { StoredFlight } from '../../src/store/schema.ts';
import { readSetting, saveSetting } from '../../src/store/settings.ts';

let database: Database;
let other: Database;
let count = 0;
beforeEach(() => {
  database = createDatabase({ name: `backup-${(count += 1)}` });
  other = createDatabase({ name: `restored-${count}` });
});

const FLIGHT: StoredFlight = {
  id: 'flight-1',
  jobId: 'lake',
  name: 'The lake',
  kind: 'flight',
  startedAtMilliseconds: 1000,
  endedAtMilliseconds: 9000,
  jobFileText: '{}',
  setupText: '{}',
};
const ROWS = 2500;

async function fill(into: Database): Promise<void> {
  await addJobs(
    into,
    [
      { ...DEMO_JOB, id: 'lake' },
      { ...DEMO_JOB, id: 'two', name: 'Two' },
    ],
    5,
  );
  await saveOverlay(into, 'lake', { fileName: 'areas.geojson', text: `{"type":"FeatureCollection","features":[]}${' '.repeat(5000)}` });
  await saveFlight(into, FLIGHT);
  await saveFlight(into, { ...FLIGHT, id: 'going', endedAtMilliseconds: null });
  await into.transact(['rows'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('rows');
    for (let sequence = 0; sequence < ROWS; sequence += 1)
      await store.add(
        storedFromLogRow('flight-1', { sequence, monotonicSeconds: sequence, wallMilliseconds: 1000 + sequence, event: { kind: 'x', sequence } }),
      );
    await store.add(storedFromLogRow('going', { sequence: 0, monotonicSeconds: 0, wallMilliseconds: 0, event: {} }));
    await store.add(storedFromLogRow('observed.lake.pier', { sequence: 0, monotonicSeconds: 0, wallMilliseconds: 0, event: { jobId: 'lake' } }));
  });
  await saveSetting(into, 'logbook/flight-1', { flightId: 'flight-1' });
  await saveSetting(into, 'link', { address: 'wss://there/link', user: 'lead', password: 'hidden-word', on: true });
  await saveSetting(into, 'picture/lake/1', { name: 'sky.png', bytes: Uint8Array.from({ length: 3000 }, (_, index) => index % 251) });
  await saveSetting(into, 'packed-log/flight-1', { version: 1 });
  await saveSetting(into, 'observer', { id: 'me', name: 'Pier' });
}

async function fileOf(from: Database): Promise<Blob> {
  return new Response(backupStream(readEverything(from), 0)).blob();
}

async function restore(
  file: Blob,
  into: Database,
): Promise<{ readonly done: readonly Restored[]; readonly faults: readonly string[]; readonly damaged: readonly string[] }> {
  const done: Restored[] = [];
  const faults: string[] = [];
  const damaged: string[] = [];
  for await (const read of readBackup(file)) {
    if (read.kind === 'entry') done.push(await restorePart(into, read.entry, 0));
    else if (read.kind === 'fault') faults.push(read.reason);
    else if (read.kind === 'damaged') damaged.push(read.name);
  }
  return { done, faults, damaged };
}

describe('a backup', () => {
  it('restores everything on an empty profile, the same to the byte when backed up again', async () => {
    await fill(database);
    const file = await fileOf(database);
    const { done, faults, damaged } = await restore(file, other);
    expect({ faults, damaged }).toEqual({ faults: [], damaged: [] });
    expect(new Set(done.map(({ kind }) => kind))).toEqual(new Set(['added']));
    expect(await (await fileOf(other)).text()).toBe(await file.text());
    expect((await readJobs(other)).jobs.map(({ id }) => id).toSorted()).toEqual(['lake', 'two']);
    expect((await readLog(other, 'flight-1')).rows).toHaveLength(ROWS);
    expect((await readOverlay(other, 'lake'))?.fileName).toBe('areas.geojson');
    expect(await readSetting(other, 'picture/lake/1')).toEqual(await readSetting(database, 'picture/lake/1'));
  });

  it('holds no password, nothing of this device alone, and no flight that goes on', async () => {
    await fill(database);
    const file = await fileOf(database);
    expect(await file.text()).not.toContain('hidden-word');
    await restore(file, other);
    expect(await readSetting(other, 'link')).toEqual({ address: 'wss://there/link', user: 'lead', password: '', on: false });
    expect(await readSetting(other, 'observer')).toBeNull();
    expect(await readSetting(other, 'packed-log/flight-1')).toBeNull();
    expect((await readFlights(other)).flights.map(({ id }) => id)).toEqual(['flight-1']);
    expect((await readLog(other, 'going')).rows).toHaveLength(0);
  });

  it('changes nothing the second time', async () => {
    await fill(database);
    const file = await fileOf(database);
    await restore(file, other);
    const before = await (await fileOf(other)).text();
    const { done } = await restore(file, other);
    expect(new Set(done.map(({ kind }) => kind))).toEqual(new Set(['there']));
    expect(await (await fileOf(other)).text()).toBe(before);
  });

  it('overwrites nothing: a job that is different here stays, the other comes beside it, once', async () => {
    await fill(database);
    const file = await fileOf(database);
    await saveJob(other, { ...DEMO_JOB, id: 'lake', name: 'Changed here' }, null, 7);
    await saveSetting(other, 'logbook/flight-1', { flightId: 'flight-1', oil: 3 });
    await saveFlight(other, { ...FLIGHT, name: 'Named here' });
    const { done } = await restore(file, other);
    const names = (await readJobs(other)).jobs.map(({ name }) => name).toSorted();
    expect(names).toEqual(['Changed here', 'Lake Ondine Regatta (demo) (from backup)', 'Two']);
    expect(done.filter(({ kind }) => kind === 'kept-here')).toHaveLength(2);
    expect((await readFlights(other)).flights[0]?.name).toBe('Named here');
    expect(await readSetting(other, 'logbook/flight-1')).toEqual({ flightId: 'flight-1', oil: 3 });
    const again = await restore(file, other);
    expect(again.done.some(({ kind }) => kind === 'added' || kind === 'copied')).toBe(false);
    expect((await readJobs(other)).jobs).toHaveLength(3);
  });

  it('names what is damaged and takes the rest, wherever a byte was changed', async () => {
    await fill(database);
    const text = await (await fileOf(database)).text();
    const lines = text.split('\n');
    for (const [index, line] of lines.entries()) {
      if (index === 0 || line === '' || line.startsWith('{')) continue;
      const middle = Math.floor(line.length / 2);
      const broken = lines.with(index, `${line.slice(0, middle)}${line[middle] === 'x' ? 'y' : 'x'}${line.slice(middle + 1)}`).join('\n');
      const into = createDatabase({ name: `damaged-${(count += 1)}` });
      const { done, damaged, faults } = await restore(new Blob([broken]), into);
      expect(damaged).toHaveLength(1);
      expect(faults).toEqual([]);
      expect(done).toHaveLength(lines.length - 4);
    }
  }, 60_000);

  it('says that a file was cut, and takes what is whole', async () => {
    await fill(database);
    const text = await (await fileOf(database)).text();
    const { done, faults } = await restore(new Blob([text.slice(0, text.length * 0.6)]), other);
    expect(faults[0]).toMatch(/cut, or parts are missing/);
    expect(done.length).toBeGreaterThan(2);
    for (const wrong of ['', 'not a backup', '{"format":"quillwind-job"}', '{"format":"quillwind-backup","version":2}']) {
      expect((await restore(new Blob([wrong]), other)).faults).toHaveLength(1);
    }
  });

  it('takes no row, flight, job or setting that is not what it says', async () => {
    const hostile: BackupEntry[] = [
      { part: 'setting', key: 'flight-checkpoint', value: {} },
      { part: 'setting', key: '__proto__', value: {} },
      { part: 'rows', key: 'flight-1', value: [{ flightId: 'another', sequence: 0 }] },
      { part: 'rows', key: 'flight-1', value: 7 },
      { part: 'flight', key: 'a', value: { ...FLIGHT, id: 'b' } },
      { part: 'flight', key: 'flight-1', value: { ...FLIGHT, endedAtMilliseconds: null } },
      { part: 'job', key: 'x', value: { job: { fileText: '{}' }, overlay: null } },
      { part: 'job', key: 'x', value: null },
    ];
    for (const entry of hostile) expect((await restorePart(other, entry, 0)).kind).toBe('refused');
    expect((await fileOf(other).then((file) => file.text())).split('\n')).toHaveLength(3);
  });

  it('reads back any part it wrote, and never throws on any line', async () => {
    await fc.assert(
      fc.asyncProperty(fc.constantFrom('job', 'rows', 'flight', 'setting'), fc.string(), fc.jsonValue(), async (part, key, value) => {
        const plain = JSON.parse(JSON.stringify(value)) as unknown;
        expect(await readLine(await lineFromEntry({ part: part as 'job', key, value: plain }))).toEqual({ kind: 'entry', entry: { part, key, value: plain } });
      }),
    );
    await fc.assert(fc.asyncProperty(fc.string(), async (line) => ['damaged', 'end'].includes((await readLine(line)).kind)));
  });
});

describe('a merged setting', () => {
  it('is the union of lists with ids, those here first; anything else stays as it is here', () => {
    const here = { ships: [{ id: 'a', name: 'mine' }], note: 'here' };
    expect(mergedSetting(here, { ships: [{ id: 'a', name: 'theirs' }, { id: 'b' }], note: 'there' })).toEqual({
      ships: [{ id: 'a', name: 'mine' }, { id: 'b' }],
      note: 'here',
    });
    expect(mergedSetting(here, { ships: [{ id: 'a', name: 'theirs' }] })).toBe(here);
    expect(mergedSetting(3, 4)).toBe(3);
    expect(mergedSetting([1], [2])).toEqual([1]);
  });
});
