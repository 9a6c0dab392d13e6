import type { Database } from './database.ts';
import type { StoredMessage } from './schema.ts';

/** Keeps a message until it has been acknowledged; the same boot and sequence again changes nothing. */
export async function putMessage(database: Database, message: StoredMessage): Promise<void> {
  await database.transact(['outbox'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('outbox');
    if ((await store.get([message.bootId, message.sequence])) === undefined) await store.add(message);
  });
}

/** What has not been acknowledged, oldest first within each boot. */
export function readMessages(database: Database): Promise<readonly StoredMessage[]> {
  return database.transact(['outbox'], 'readonly', (transaction) => transaction.objectStore('outbox').getAll());
}

/** Forgets a message that has been acknowledged; one that is not there is no fault. */
export async function forgetMessage(database: Database, { bootId, sequence }: Pick<StoredMessage, 'bootId' | 'sequence'>): Promise<void> {
  await database.transact(['outbox'], 'readwrite', (transaction) => transaction.objectStore('outbox').delete([bootId, sequence]));
}
