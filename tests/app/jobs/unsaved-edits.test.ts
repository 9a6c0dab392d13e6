import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, it } from 'vitest';
import { createJobShelf } from '../../../src/app/jobs/job-shelf.ts';
import { writeUnsaved } from '../../../src/app/jobs/unsaved-edits.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { createDatabase } from '../../../src/store/database.ts';

/** As much of a browser's storage as is asked for. */
function drawer(): Storage {
  const map = new Map<string, string>();
  return {
    getItem: (key) => map.get(key) ?? null,
    setItem: (key, value) => void map.set(key, value),
    removeItem: (key) => void map.delete(key),
    clear: () => map.clear(),
    key: (index) => [...map.keys()][index] ?? null,
    get length() {
      return map.size;
    },
  };
}

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

const shelfOver = (storage: Storage) =>
  createJobShelf(
    createDatabase(),
    () => 1,
    undefined,
    () => storage,
  );

describe('what a page could not store when it went', () => {
  it('is taken up at the next start, beside what was stored meanwhile', async () => {
    const storage = drawer();
    const first = shelfOver(storage);
    await first.refresh();
    const base = first.find(DEMO_JOB.id)!;
    writeUnsaved(() => storage, 'page', { job: { ...base, notes: 'the last words' }, base });
    await first.save({ ...base, text: 'OTHER' }, base);
    const next = shelfOver(storage);
    await next.refresh();
    expect(next.find(DEMO_JOB.id)).toMatchObject({ notes: 'the last words', text: 'OTHER' });
    expect(storage.length).toBe(0);
  });

  it('is left lying when it is damaged, and keeps nobody from their jobs', async () => {
    const storage = drawer();
    storage.setItem('quillwind-unsaved/torn', '["{');
    const shelf = shelfOver(storage);
    await shelf.refresh();
    expect(shelf.find(DEMO_JOB.id)).toEqual(DEMO_JOB);
    expect(storage.length).toBe(1);
  });

  it('is written down without the part that is at fault', async () => {
    const storage = drawer();
    const first = shelfOver(storage);
    await first.refresh();
    const base = first.find(DEMO_JOB.id)!;
    writeUnsaved(() => storage, 'page', { job: { ...base, notes: 'whole', letters: { ...base.letters, heightFeet: 4 } }, base });
    const next = shelfOver(storage);
    await next.refresh();
    expect(next.find(DEMO_JOB.id)).toEqual({ ...base, notes: 'whole' });
  });
});
