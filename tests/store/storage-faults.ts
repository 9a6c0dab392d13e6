import { vi } from 'vitest';

/**
 * Breaks the database the way devices do. Each fault is undone by `vi.restoreAllMocks()`; counts say how many
 * times it strikes, Infinity for ever.
 */

/** The open request never fires anything, or only says that another tab blocks it. */
export function openNeverSettles(times: number, blocked = false): void {
  const open = IDBFactory.prototype.open;
  let left = times;
  vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(function (this: IDBFactory, ...args) {
    if (left-- <= 0) return open.apply(this, args);
    const request = open.call(this, 'another database');
    request.addEventListener = (type: string, listener: EventListener) => {
      if (blocked && type === 'blocked') setTimeout(() => listener(new Event('blocked')), 0);
    };
    return request;
  });
}

/** The handle is dead: every transaction on it throws, as after the database process was killed. */
export function handleDies(times: number): void {
  const transaction = IDBDatabase.prototype.transaction;
  let left = times;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
    // The imitation opens with the same call.
    if ((args[1] as string) !== 'versionchange' && left-- > 0) throw new DOMException('The database connection is closing.', 'InvalidStateError');
    return transaction.apply(this, args);
  });
}

/** Work is done, but `complete` never fires. What was written is there all the same. */
export function transactionNeverCompletes(times: number): void {
  const transaction = IDBDatabase.prototype.transaction;
  let left = times;
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
    const made = transaction.apply(this, args);
    if ((args[1] as string) !== 'versionchange' && left-- > 0) {
      const listen = made.addEventListener.bind(made);
      made.addEventListener = (type: string, ...rest: [EventListener]) => {
        if (type !== 'complete') listen(type, ...rest);
      };
      // Too late to take back what has been done.
      made.abort = () => {};
    }
    return made;
  });
}

/** The nth write from now on fails, and those after it as often as said. */
export function writeFails(name: string, times: number, after = 0): void {
  const add = IDBObjectStore.prototype.add;
  let passing = after;
  let left = times;
  vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, ...args) {
    if (passing-- <= 0 && left-- > 0) throw new DOMException('injected', name);
    return add.apply(this, args);
  });
}

/** No room: the request succeeds first and the transaction aborts afterwards. */
export function noRoomAtCommit(times: number): void {
  const add = IDBObjectStore.prototype.add;
  let left = times;
  vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, ...args) {
    const request = add.apply(this, args);
    if (left-- > 0) {
      const { transaction } = this;
      request.addEventListener('success', () => {
        Object.defineProperty(transaction, 'error', { get: () => new DOMException('injected', 'QuotaExceededError') });
        transaction.abort();
      });
    }
    return request;
  });
}
