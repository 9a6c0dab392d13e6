import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, it } from 'vitest';
import { createJobShelf } from '../../src/app/jobs/job-shelf.ts';
import { DEMO_JOB_ID } from '../../src/core/job/demo-id.ts';
import { createDatabase, type Database } from '../../src/store/database.ts';
import { overlayKey, readOverlay, saveOverlay } from '../../src/store/overlays.ts';
import { saveSetting } from '../../src/store/settings.ts';

let database: Database;
beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  database = createDatabase();
});

const OVERLAY = { fileName: 'lake.geojson', text: '{"type":"FeatureCollection","features":[]}' };

describe('overlays in the store', () => {
  it('are read as they were kept, each with its own job', async () => {
    await saveOverlay(database, 'one', OVERLAY);
    expect(await readOverlay(database, 'one')).toEqual(OVERLAY);
    expect(await readOverlay(database, 'other')).toBeNull();
    await saveOverlay(database, 'one', null);
    expect(await readOverlay(database, 'one')).toBeNull();
  });

  it('that are no overlays count as none', async () => {
    for (const value of [true, 'text', { text: 7 }, []]) {
      await saveSetting(database, overlayKey('one'), value);
      expect(await readOverlay(database, 'one')).toBeNull();
    }
  });

  it('go with their job: into its copy, away with it, and back', async () => {
    const shelf = createJobShelf(database, () => 0);
    await shelf.refresh();
    await saveOverlay(database, DEMO_JOB_ID, OVERLAY);
    const copy = await shelf.duplicate(DEMO_JOB_ID);
    expect(await readOverlay(database, copy!.id)).toEqual(OVERLAY);
    await shelf.remove(DEMO_JOB_ID);
    expect(await readOverlay(database, DEMO_JOB_ID)).toBeNull();
    await shelf.undoRemove();
    expect(await readOverlay(database, DEMO_JOB_ID)).toEqual(OVERLAY);
  });
});
