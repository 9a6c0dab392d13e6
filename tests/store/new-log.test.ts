import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import { createDatabase } from '../../src/store/database.ts';
import { beginNewLog } from '../../src/store/new-log.ts';
import { saveSetting } from '../../src/store/settings.ts';

it('writes more than a storage log holds, in pieces too small for files of their own, and leaves nothing of it', async () => {
  const database = createDatabase({ name: 'new-log' });
  await saveSetting(database, 'kept-things', { ships: [] });
  const written: number[] = [];
  const watched: typeof database = {
    ...database,
    transact: (stores, mode, work, writer) =>
      database.transact(
        stores,
        mode,
        async (transaction) => {
          const result = await work(transaction);
          const values = (await transaction.objectStore('settings' as never).getAll()) as unknown[];
          written.push(values.reduce<number>((sum, value) => sum + (value instanceof Uint8Array ? value.length : 0), 0));
          return result;
        },
        writer,
      ),
  };
  await beginNewLog(watched);
  // LevelDB's write_buffer_size is 4 MB unless a browser says less (its own header, options.h); Chromium files apart what has 64 KB.
  expect(written[0]).toBeGreaterThan(4 * 1024 * 1024);
  expect(written.at(-1)).toBe(0);
  const keys = await database.transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').getAllKeys());
  expect(keys).toEqual(['kept-things']);
  database.close();
});
