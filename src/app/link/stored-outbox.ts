import type { LinkOutbox } from '../../link/event-sender.ts';
import type { Database } from '../../store/database.ts';
import { acknowledgeMessage, forgetMessages, putMessage, readMessages } from '../../store/outbox.ts';
import type { StoredMessage } from '../../store/schema.ts';

const HOUR_MILLISECONDS = 3_600_000;
/** Told events are kept this long for whoever missed them, untold ones a week. */
const TOLD_HOURS = 12;
const UNTOLD_HOURS = 7 * 24;

/** The link's outbox over the store. */
export function createStoredOutbox(database: Database, nowMilliseconds: () => number): LinkOutbox {
  return {
    async put({ boot, sequence, topic, payloadText }) {
      await putMessage(database, { bootId: boot, sequence, topic, payloadText, queuedAtMilliseconds: nowMilliseconds() });
    },
    async acknowledge({ boot, sequence }) {
      await acknowledgeMessage(database, { bootId: boot, sequence }, nowMilliseconds());
    },
    async read(topic) {
      const now = nowMilliseconds();
      const messages = await readMessages(database);
      const old = messages.filter((message) => isOld(message, now));
      if (old.length > 0) forgetMessages(database, old).catch(() => {});
      return messages
        .filter((message) => message.topic === topic && !isOld(message, now))
        .sort((one, other) => one.queuedAtMilliseconds - other.queuedAtMilliseconds || one.sequence - other.sequence)
        .map(({ bootId, sequence, payloadText, acknowledgedAtMilliseconds }) => ({
          boot: bootId,
          sequence,
          topic,
          payloadText,
          acknowledged: acknowledgedAtMilliseconds !== undefined,
        }));
    },
  };
}

function isOld({ queuedAtMilliseconds, acknowledgedAtMilliseconds }: StoredMessage, nowMilliseconds: number): boolean {
  const hours = (nowMilliseconds - queuedAtMilliseconds) / HOUR_MILLISECONDS;
  return hours > (acknowledgedAtMilliseconds === undefined ? UNTOLD_HOURS : TOLD_HOURS);
}
