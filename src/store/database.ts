import { type IDBPDatabase, type IDBPTransaction, openDB } from 'idb';
import { type QuillwindSchema, SCHEMA_VERSION, type StoreName } from './schema.ts';
import { settleWithin } from './settle-within.ts';
import { isWorthRetrying, StoreFault, storeFaultFrom } from './store-fault.ts';
import { upgradeSchema } from './upgrade-schema.ts';

type Handle = IDBPDatabase<QuillwindSchema>;
type Mode = 'readonly' | 'readwrite';

/**
 * Who may write: the one tab that does the writing, or any tab, where the transaction itself holds what the tab knows
 * against what is stored.
 */
type Writer = 'one-tab' | 'any-tab';

/** A transaction over some stores; awaiting anything but its own requests ends it. */
export type Transaction<Names extends StoreName, Kind extends Mode> = IDBPTransaction<QuillwindSchema, Names[], Kind>;

export interface DatabaseOptions {
  /** Default `quillwind`. */
  readonly name?: string;
  /** How long an open or a transaction may take to settle. Default 3. */
  readonly limitSeconds?: number;
  /** Resolves once this page may write; rejects with a fault when another tab does. Default: it may. */
  readonly permitWriting?: () => Promise<void>;
  /** Reads what is there in whatever version it is, and writes nothing: to rescue what a newer version of the app stored. */
  readonly readsAnyVersion?: boolean;
  /** Asked when a newer page wants to change the schema. Default yes; no while a flight is in progress. */
  readonly mayGiveWay?: () => boolean;
}

/** The stored data behind a handle that may die at any time and is then replaced. */
export interface Database {
  /**
   * Runs the work in one transaction and resolves with its result once the transaction is complete on disk
   * (strict durability). On failure the handle is dropped and the whole transaction done again on a fresh one,
   * up to three times, so the work must bear repetition. Writes as the one tab that may unless told otherwise. Never deletes to recover. Rejects with a `StoreFault`.
   */
  transact<Names extends StoreName, Kind extends Mode, Result>(
    stores: readonly Names[],
    mode: Kind,
    work: (transaction: Transaction<Names, Kind>) => Promise<Result>,
    writer?: Writer,
  ): Promise<Result>;
  /** Reads nothing of worth, to find out early whether the handle is dead and replace it. */
  probe(): Promise<void>;
  /** Does what a newer page asked for while it might not; to be called once it may. */
  giveWay(): void;
  close(): void;
}

const RETRIES = 3;

/** The one place that opens the database. Nothing is opened before the first transaction. */
export function createDatabase(options: DatabaseOptions = {}): Database {
  const { name = 'quillwind', limitSeconds = 3, permitWriting = async () => {}, mayGiveWay = () => true, readsAnyVersion = false } = options;
  let opening: Promise<Handle> | null = null;
  let gaveWay = false;
  /** What a newer page asked for and has not got yet. */
  let asked: IDBDatabase | null = null;

  function giveWay(): void {
    if (asked === null || !mayGiveWay()) return;
    gaveWay = true;
    asked.close();
    asked = null;
  }

  function open(): Promise<Handle> {
    if (gaveWay) return Promise.reject(new StoreFault('newer-data'));
    let blocked = false;
    let abandoned = false;
    const ask = async (): Promise<Handle> =>
      openDB<QuillwindSchema>(name, readsAnyVersion ? undefined : SCHEMA_VERSION, {
        upgrade: (database, oldVersion) => upgradeSchema(database, oldVersion),
        blocked: () => {
          blocked = true;
        },
        blocking: (_current, _wanted, event) => {
          // A held old connection blocks an upgrade for ever; during a flight that is what is wanted.
          asked = event.target as IDBDatabase;
          giveWay();
        },
        terminated: () => forget(guarded),
      });
    // Some browsers refuse with an event, some throw at once: both are a rejection here.
    const attempt = ask();
    const guarded = settleWithin(attempt, limitSeconds).catch((error: unknown) => {
      abandoned = true;
      throw blocked ? new StoreFault('blocked', { cause: error }) : error;
    });
    // An open that settles after all must not leave a second handle behind.
    attempt.then(
      (late) => {
        if (abandoned) late.close();
      },
      () => {},
    );
    return guarded;
  }

  function forget(handle: Promise<Handle>): void {
    if (opening === handle) opening = null;
  }

  function drop(handle: Promise<Handle>): void {
    forget(handle);
    handle.then(
      (database) => database.close(),
      () => {},
    );
  }

  async function attemptOnce<Names extends StoreName, Kind extends Mode, Result>(
    handle: Promise<Handle>,
    stores: readonly Names[],
    mode: Kind,
    work: (transaction: Transaction<Names, Kind>) => Promise<Result>,
  ): Promise<Result> {
    const transaction = (await handle).transaction([...stores], mode, { durability: 'strict' });
    const done = transaction.done;
    // Looked at below; until then a rejection is not unhandled.
    done.catch(() => {});
    const both = (async () => {
      try {
        const result = await work(transaction);
        await done;
        return result;
      } catch (error) {
        // The transaction's own error says more than the request's: no room shows only there.
        abort(transaction);
        throw await done.then(
          () => error,
          (ended: unknown) => (ended instanceof Error && ended.name !== 'AbortError' ? ended : error),
        );
      }
    })();
    try {
      return await settleWithin(both, limitSeconds);
    } catch (error) {
      abort(transaction);
      throw error;
    }
  }

  async function transact<Names extends StoreName, Kind extends Mode, Result>(
    stores: readonly Names[],
    mode: Kind,
    work: (transaction: Transaction<Names, Kind>) => Promise<Result>,
    writer: Writer = 'one-tab',
  ): Promise<Result> {
    if (mode === 'readwrite' && readsAnyVersion) throw new StoreFault('read-only');
    if (mode === 'readwrite' && writer === 'one-tab') await permitWriting();
    for (let retriesLeft = RETRIES; ; retriesLeft -= 1) {
      opening ??= open();
      const handle = opening;
      try {
        return await attemptOnce(handle, stores, mode, work);
      } catch (error) {
        const fault = storeFaultFrom(error);
        drop(handle);
        if (retriesLeft === 0 || !isWorthRetrying(fault)) throw fault;
      }
    }
  }

  return {
    transact,
    async probe() {
      await transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').count());
    },
    giveWay,
    close() {
      if (opening !== null) drop(opening);
    },
  };
}

function abort(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch {
    // It has ended already.
  }
}
