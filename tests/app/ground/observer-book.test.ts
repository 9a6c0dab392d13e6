import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { type ObserverBook, openObserverBook } from '../../../src/app/ground/observer-book.ts';
import { standingEntries } from '../../../src/core/wire/observer-log.ts';
import { parseObserverLog, writeObserverLog } from '../../../src/core/wire/parse-observer-log.ts';
import { createDatabase, type Database } from '../../../src/store/database.ts';
import { StoreFault } from '../../../src/store/store-fault.ts';

let count = 0;
const freshDatabase = (): Database => createDatabase({ name: `book-${(count += 1)}` });
const open = (database: Database): ObserverBook => openObserverBook(database, 'job', Promise.resolve(null), () => 1_800_000_000_000);
async function until(holds: () => boolean): Promise<void> {
  for (let attempt = 0; attempt < 300 && !holds(); attempt += 1) await new Promise((resolve) => setTimeout(resolve, 10));
  expect(holds()).toBe(true);
}
/** A book in which two notes were written and stored, closed again. */
async function closedWithNotes(database: Database): Promise<ObserverBook> {
  const book = open(database);
  await until(() => book.own.value !== null);
  for (const text of ['first', 'second']) book.write({ kind: 'noted', text }, null);
  book.end();
  await new Promise((resolve) => setTimeout(resolve, 100));
  return book;
}
const fileOf = (text: string) => new File([text], 'log.json');

describe('the observer\u2019s book', () => {
  it('keeps what was written, even before the store had been read, and has it at the next opening', async () => {
    const database = freshDatabase();
    const book = open(database);
    book.write({ kind: 'noted', text: 'first' }, null);
    await until(() => book.own.value !== null);
    book.write({ kind: 'rated', letterIndex: 0, character: 'S', rating: 'weak' }, 12.34);
    await until(() => book.own.value?.entries.length === 2);
    book.end();
    await new Promise((resolve) => setTimeout(resolve, 100));
    const again = open(database);
    await until(() => again.own.value?.entries.length === 2);
    expect(again.own.value?.entries).toMatchObject([
      { sequence: 0, kind: 'noted', text: 'first', sinceDatumSeconds: null },
      { sequence: 1, kind: 'rated', rating: 'weak', sinceDatumSeconds: 12.3 },
    ]);
    expect(again.own.value?.observerId).toBe(book.own.value?.observerId);
  });

  it('reads again what was written years from the first smoke, and hands it over', async () => {
    const days = 86_400;
    const database = freshDatabase();
    const book = open(database);
    await until(() => book.own.value !== null);
    for (const since of [-3650 * days, -12 * days, 12 * days, 1e12]) book.write({ kind: 'noted', text: 'far off' }, since);
    const whole = { ...book.own.value!, entries: book.own.value!.entries.map((entry) => ({ ...entry })) };
    book.end();
    await new Promise((resolve) => setTimeout(resolve, 100));
    const again = open(database);
    await until(() => again.own.value !== null);
    expect(again.damagedCount.value).toBe(0);
    expect(again.own.value?.entries.map(({ sinceDatumSeconds }) => sinceDatumSeconds)).toEqual([-3650 * days, -12 * days, 12 * days, null]);
    expect(parseObserverLog(writeObserverLog(whole))).toMatchObject({ ok: true });
  });

  it('writes on under a new number where the last entry can no longer be read', async () => {
    const database = freshDatabase();
    const book = await closedWithNotes(database);
    await database.transact(['rows'], 'readwrite', async (transaction) => {
      const store = transaction.objectStore('rows');
      const row = await store.get([`observed.job.${book.own.value!.observerId}`, 2]);
      if (row !== undefined) await store.put({ ...row, eventText: row.eventText.replace('second', 'torn') });
    });
    const next = open(database);
    await until(() => next.damagedCount.value === 1);
    next.write({ kind: 'noted', text: 'third' }, null);
    next.end();
    await new Promise((resolve) => setTimeout(resolve, 100));
    const again = open(database);
    await until(() => again.own.value !== null);
    expect(again.own.value?.entries).toMatchObject([
      { sequence: 0, text: 'first' },
      { sequence: 2, text: 'third' },
    ]);
  });

  it('puts what was written while the store could not be read after what stands there', async () => {
    const inner = freshDatabase();
    await closedWithNotes(inner);
    let failing = true;
    const database: Database = {
      ...inner,
      transact: (stores, mode, work) =>
        failing && stores.some((store) => store === 'rows') ? Promise.reject(new StoreFault('blocked')) : inner.transact(stores, mode, work),
    };
    const book = open(database);
    await until(() => book.own.value !== null);
    expect(book.notSaved.value).not.toBeNull();
    book.write({ kind: 'noted', text: 'third' }, null);
    book.write({ kind: 'noted', text: 'wrong' }, null);
    book.write({ kind: 'withdrawn', withdrawnSequence: 1 }, null);
    failing = false;
    await until(() => book.notSaved.value === null);
    expect(book.own.value?.entries).toHaveLength(5);
    book.write({ kind: 'noted', text: 'fourth' }, null);
    book.end();
    await new Promise((resolve) => setTimeout(resolve, 100));
    const again = open(inner);
    await until(() => again.own.value !== null);
    expect(again.own.value?.entries.map(({ sequence }) => sequence)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(standingEntries(again.own.value?.entries ?? [])).toMatchObject([{ text: 'first' }, { text: 'second' }, { text: 'third' }, { text: 'fourth' }]);
  });

  it('says when it cannot save, keeps what was written, and saves it when it can', async () => {
    const inner = freshDatabase();
    let failing = false;
    const database: Database = {
      ...inner,
      transact: (stores, mode, work) => (failing && mode === 'readwrite' ? Promise.reject(new StoreFault('no-space')) : inner.transact(stores, mode, work)),
    };
    const book = open(database);
    await until(() => book.own.value !== null);
    failing = true;
    book.write({ kind: 'noted', text: 'kept' }, null);
    await until(() => book.notSaved.value !== null);
    expect(book.own.value?.entries).toHaveLength(1);
    failing = false;
    await until(() => book.notSaved.value === null);
    const again = open(inner);
    await until(() => again.own.value?.entries.length === 1);
  });

  it('takes another observer\u2019s log, once, and refuses what is none', async () => {
    const theirs = open(freshDatabase());
    await until(() => theirs.own.value !== null);
    theirs.write({ kind: 'noted', text: 'from the pier' }, 3);
    const text = writeObserverLog({ ...theirs.own.value!, observerName: 'Pier' });
    const database = freshDatabase();
    const book = open(database);
    await until(() => book.own.value !== null);
    expect(await book.importFile(fileOf(text))).toBeNull();
    expect(await book.importFile(fileOf(text))).toBeNull();
    expect(book.others.value.map(({ observerName, entries }) => [observerName, entries.length])).toEqual([['Pier', 1]]);
    expect(await book.importFile(fileOf(text.replace('"job"', '"another"')))).toMatch(/another job/);
    expect(await book.importFile(fileOf('{}'))).toMatch(/not an observer/);
    expect(await theirs.importFile(fileOf(text))).toMatch(/own log/);
    const again = open(database);
    await until(() => again.others.value.length === 1);
  });
});
