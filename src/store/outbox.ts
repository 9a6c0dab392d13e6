import type { Database } from './database.ts';
import type { StoredMessage } from './schema.ts';

/** Keeps a message; the same boot and sequence again changes nothing. */
export async function putMessage(database: Database, message: StoredMessage): Promise<void> {
  await database.transact(['outbox'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('outbox');
    if ((await store.get([message.bootId, message.sequence])) === undefined) await store.add(message);
  });
}

/** Marks a message as acknowledged; one that is not there is no fault. */
export async function acknowledgeMessage(
  database: Database,
  { bootId, sequence }: Pick<StoredMessage, 'bootId' | 'sequence'>,
  atMilliseconds: number,
): Promise<void> {
  await database.transact(['outbox'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('outbox');
    const message = await store.get([bootId, sequence]);
    if (message !== undefined) await store.put({ ...message, acknowledgedAtMilliseconds: atMilliseconds });
  });
}

/** Every message kept, acknowledged or not, oldest first within each boot. */
export function readMessages(database: Database): Promise<readonly StoredMessage[]> {
  return database.transact(['outbox'], 'readonly', (transaction) => transaction.objectStore('outbox').getAll());
}

/** Forgets messages, all or none; those that are not there are no fault. */
export async function forgetMessages(database: Database, messages: readonly Pick<StoredMessage, 'bootId' | 'sequence'>[]): Promise<void> {
  await database.transact(['outbox'], 'readwrite', async (transaction) => {
    const store = transaction.objectStore('outbox');
    await Promise.all(messages.map(({ bootId, sequence }) => store.delete([bootId, sequence])));
  });
}
