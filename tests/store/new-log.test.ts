import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import { createDatabase } from '../../src/store/database.ts';
import { beginNewLog } from '../../src/store/new-log.ts';
import { readSetting, saveSetting } from '../../src/store/settings.ts';

// That the browser begins a new log by it is seen in the browser: e2e/faults/torn-log.spec.ts.
it('leaves nothing of the scratch, and what is stored as it is, twice at once too', async () => {
  const database = createDatabase();
  await saveSetting(database, 'kept-things', { ships: [] });
  await Promise.all([beginNewLog(), beginNewLog()]);
  expect((await indexedDB.databases()).map(({ name }) => name)).toEqual(['quillwind']);
  expect(await readSetting(database, 'kept-things')).toEqual({ ships: [] });
  database.close();
});
