import type { Connection } from './connection.ts';

/** Tells the newest of something that is soon out of date. */
export interface NewestSender {
  /** Sent at once, or after what is under way; what has waited meanwhile is replaced. */
  tell(through: Connection, payloadText: string): void;
  /** The connection is gone, and with it what waited. */
  lost(): void;
}

/**
 * Keeps at most one message waiting, so that a slow link is never behind by more than that.
 *
 * @param topic asked for when there is something to tell: not every role has the topic
 */
export function createNewestSender(topic: () => string): NewestSender {
  let waiting: string | null = null;
  let busy: Connection | null = null;

  async function send(through: Connection): Promise<void> {
    while (waiting !== null && busy !== through) {
      const payloadText = waiting;
      waiting = null;
      busy = through;
      const arrived = await through
        .publish(topic(), payloadText, { qos: 0, retain: true })
        .then(() => true)
        .catch(() => false);
      if (busy !== through) return;
      busy = null;
      // After a failure the next to be told goes first.
      if (!arrived) return;
    }
  }

  return {
    tell(through, payloadText) {
      waiting = payloadText;
      void send(through);
    },
    lost() {
      waiting = null;
      busy = null;
    },
  };
}
