import type { LinkFact } from '../core/wire/link-messages.ts';
import { LINK_PAYLOAD_BYTES } from '../core/wire/link-schemas.ts';
import type { Connection } from './connection.ts';

/** An event as it is kept until it has been acknowledged, and after that to be told again to whoever missed it. */
export interface OutboxMessage {
  readonly boot: string;
  readonly sequence: number;
  readonly topic: string;
  readonly payloadText: string;
  readonly acknowledged: boolean;
}

/** Where events are kept; app hands in the store. */
export interface LinkOutbox {
  /** Resolves once the message is on disk. */
  put(message: OutboxMessage): Promise<void>;
  acknowledge(message: Pick<OutboxMessage, 'boot' | 'sequence'>): Promise<void>;
  /** Everything kept for a topic, of this boot and of earlier ones, oldest first. */
  read(topic: string): Promise<readonly OutboxMessage[]>;
}

/** Tells events, each at least once and in order, and again when asked. */
export interface EventSender {
  /** Takes an event; it is told when it is on disk and there is a link. Never throws, never waits. */
  tell(fact: LinkFact, atMilliseconds: number): void;
  /** Events of this boot so far. */
  count(): number;
  boots(): readonly { readonly boot: string; readonly count: number }[];
  /** Begins to tell what is waiting over a new connection. */
  over(connection: Connection): void;
  /** The connection has ended: what it did not confirm is told again over the next. */
  lost(): void;
  again(boot: string, fromSequence: number, toSequence: number): void;
  /** For how long events wait, whether on their way or not, and none was confirmed; 0 when none waits. */
  unconfirmedSeconds(): number;
  /** Told to nobody yet. */
  waitingCount(): number;
  /** Whether the last event was stored. */
  isStoring(): boolean;
}

interface Kept {
  readonly message: OutboxMessage;
  ready: boolean;
  acknowledged: boolean;
  inFlight: boolean;
  toldAtMilliseconds: number;
}

export interface EventSenderOptions {
  readonly topic: string;
  readonly device: string;
  readonly boot: string;
  readonly outbox: LinkOutbox;
  /** What `outbox.read` gave for the topic. */
  readonly kept: readonly OutboxMessage[];
  readonly nowMilliseconds: () => number;
  readonly onChange: () => void;
}

/** As many as a broker keeps unconfirmed without a thought (20 is common). */
const IN_FLIGHT_LIMIT = 16;
/** Many ask for the same events after the same outage; one telling serves all of them. */
const AGAIN_MILLISECONDS = 2000;
const AGAIN_LIMIT = 200;

/** A sender over what an earlier page start may have left. */
export function createEventSender(options: EventSenderOptions): EventSender {
  const { topic, device, boot, outbox, nowMilliseconds, onChange } = options;
  const kept: Kept[] = options.kept.map((message) => ({
    message,
    ready: true,
    acknowledged: message.acknowledged,
    inFlight: false,
    toldAtMilliseconds: -Infinity,
  }));
  let connection: Connection | null = null;
  /** When something was last confirmed, or told with nothing waiting before it. */
  let confirmedAtMilliseconds = nowMilliseconds();
  let storing = true;
  let sequence = 0;

  async function publish(one: Kept, through: Connection): Promise<void> {
    one.inFlight = true;
    one.toldAtMilliseconds = nowMilliseconds();
    try {
      await through.publish(topic, one.message.payloadText, { qos: 1, retain: false });
    } catch {
      // The connection's end says it too; the event waits for the next.
      if (through === connection) one.inFlight = false;
      return;
    }
    one.inFlight = false;
    confirmedAtMilliseconds = nowMilliseconds();
    if (one.acknowledged) return;
    one.acknowledged = true;
    // An acknowledgement that is not stored makes one more telling, which receivers know as one.
    outbox.acknowledge(one.message).catch(() => {});
    onChange();
    pump();
  }

  function pump(): void {
    if (connection === null) return;
    let inFlight = kept.filter((one) => one.inFlight).length;
    for (const one of kept) {
      if (inFlight >= IN_FLIGHT_LIMIT) return;
      if (one.acknowledged || one.inFlight) continue;
      // Order is kept: what is not on disk yet holds back what came after it.
      if (!one.ready) return;
      inFlight += 1;
      void publish(one, connection);
    }
  }

  return {
    tell(fact, atMilliseconds) {
      const sentAtMilliseconds = Math.round(nowMilliseconds());
      const payloadText = JSON.stringify({ v: 1, device, boot, sentAtMilliseconds, sequence, atMilliseconds: Math.round(atMilliseconds), ...fact });
      if (payloadText.length > LINK_PAYLOAD_BYTES) return;
      const message: OutboxMessage = { boot, sequence, topic, payloadText, acknowledged: false };
      sequence += 1;
      if (!kept.some(({ acknowledged }) => !acknowledged)) confirmedAtMilliseconds = nowMilliseconds();
      const one: Kept = { message, ready: false, acknowledged: false, inFlight: false, toldAtMilliseconds: -Infinity };
      kept.push(one);
      outbox
        .put(message)
        .then(
          () => (storing = true),
          // A full disk keeps nobody from being told.
          () => (storing = false),
        )
        .finally(() => {
          one.ready = true;
          onChange();
          pump();
        });
      onChange();
    },
    count: () => sequence,
    boots() {
      const counts = new Map<string, number>();
      for (const { message } of kept) counts.set(message.boot, Math.max(counts.get(message.boot) ?? 0, message.sequence + 1));
      return [...counts].map(([each, count]) => ({ boot: each, count })).slice(-16);
    },
    over(next) {
      connection = next;
      confirmedAtMilliseconds = nowMilliseconds();
      for (const one of kept) one.inFlight = false;
      pump();
    },
    lost() {
      connection = null;
      for (const one of kept) one.inFlight = false;
    },
    again(ofBoot, fromSequence, toSequence) {
      if (connection === null) return;
      const now = nowMilliseconds();
      const due = kept
        .filter(({ message, acknowledged, inFlight, toldAtMilliseconds }) => {
          const asked = message.boot === ofBoot && message.sequence >= fromSequence && message.sequence <= toSequence;
          return asked && acknowledged && !inFlight && now - toldAtMilliseconds >= AGAIN_MILLISECONDS;
        })
        .slice(0, AGAIN_LIMIT);
      for (const one of due) void publish(one, connection);
    },
    unconfirmedSeconds: () =>
      connection !== null && kept.some(({ acknowledged, ready }) => ready && !acknowledged) ? (nowMilliseconds() - confirmedAtMilliseconds) / 1000 : 0,
    waitingCount: () => kept.filter(({ acknowledged }) => !acknowledged).length,
    isStoring: () => storing,
  };
}
