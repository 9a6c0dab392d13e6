import type { LinkPresence } from '../core/wire/link-messages.ts';
import { linkAddresses } from '../core/wire/link-addresses.ts';
import { LINK_PAYLOAD_BYTES } from '../core/wire/link-schemas.ts';
import { linkMessageFrom } from '../core/wire/link-parse.ts';
import { linkSubscriptions, type LinkTopicKind, textFromLinkTopic } from '../core/wire/link-topics.ts';
import { backoffSeconds } from './backoff.ts';
import type { Connection, ConnectionEnd } from './connection.ts';
import { createEventSender, type EventSender } from './event-sender.ts';
import { elapsedMilliseconds, type LinkInstant } from './link-clock.ts';
import type { LinkSession, LinkSessionOptions } from './link-session-types.ts';
import { createNewestSender } from './newest-sender.ts';

const WILL_BOOTS = 3;
const KEEPALIVE_SECONDS = 12;
const OPENING_SECONDS = 10;
const QUIET_SECONDS = 12;
const DEAD_SECONDS = 25;
const TICK_MILLISECONDS = 1000;
const HIDDEN_SECONDS = 5;
/** A link that breaks sooner than this counts as a failure: another device may be using the same name. */
const STEADY_SECONDS = 20;
const PRESENCE_SECONDS = 5;
const ECHO_SECONDS = 6;
const DOUBTED_SECONDS = 10;
const LEAVE_SECONDS = 2;
/** A node that is cut off from the others keeps its devices and confirms nothing. */
const UNCONFIRMED_SECONDS = 20;

/** Reads what earlier page starts left in the outbox and begins to connect. */
export async function startLinkSession(options: LinkSessionOptions): Promise<LinkSession> {
  const topic = (kind: LinkTopicKind, other: string | null = null): string =>
    textFromLinkTopic({ jobId: options.jobId, role: options.role, device: options.user, kind, other });
  // A store that cannot be read is no reason not to talk.
  const kept = await options.outbox.read(topic('event')).catch(() => []);
  const sender: EventSender = createEventSender({
    topic: topic('event'),
    device: options.user,
    boot: options.boot,
    outbox: options.outbox,
    kept,
    nowMilliseconds: () => options.time.now().wallMilliseconds,
    onChange: () => options.onOutbox(sender.waitingCount(), sender.isStoring()),
  });
  return runSession(options, topic, sender);
}

function runSession(options: LinkSessionOptions, topic: (kind: LinkTopicKind, other?: string) => string, sender: EventSender): LinkSession {
  const { page, time } = options;
  const { now } = time;
  let connection: Connection | null = null;
  let opened = false;
  let generation = 0;
  let failures = 0;
  let openedAt = now();
  let startedAt = now();
  let heardAt = now();
  let pingedAt = now();
  let waitUntil: { readonly from: LinkInstant; readonly milliseconds: number } | null = null;
  let halted = false;
  let ended = false;
  let presenceTold = '';
  let presenceToldAt = now();
  const addresses = linkAddresses(options.address);
  /** Of the address that is used, or tried next. */
  let node = 0;
  let doubtfulNodes = 0;
  const states = createNewestSender(() => topic('state'));
  /** Some brokers take what they then throw away; who has rights hears its own presence. */
  let echoed = true;
  let muted = false;
  let doubted = false;
  const decoder = new TextDecoder('utf-8', { fatal: true });

  const stamp = () => ({ v: 1, device: options.user, boot: options.boot, sentAtMilliseconds: Math.round(now().wallMilliseconds) }) as const;
  const seconds = (from: LinkInstant): number => elapsedMilliseconds(from, now()) / 1000;
  const presence = (state: LinkPresence['state']): LinkPresence => ({ ...stamp(), state, ...options.presence, boots: sender.boots() });
  const quietly = (promise: Promise<unknown> | undefined): void => void promise?.catch(() => {});

  async function begin(): Promise<void> {
    generation += 1;
    const mine = generation;
    opened = false;
    muted = doubted = false;
    echoed = true;
    startedAt = now();
    waitUntil = null;
    options.onStatus({ kind: 'connecting' });
    const current = (): boolean => mine === generation && !ended;
    try {
      const made = await options.connect(
        {
          address: addresses[node % addresses.length] ?? options.address,
          user: options.user,
          password: options.password,
          keepaliveSeconds: KEEPALIVE_SECONDS,
          will: { topic: topic('link'), payloadText: JSON.stringify(willOf(presence('lost'))) },
        },
        {
          opened: () => void (current() && onOpened(mine)),
          heard: () => {
            if (current()) heardAt = now();
          },
          received: (topicText, payload, retained) => void (current() && receive(topicText, payload, retained)),
          ended: (end) => void (current() && onEnded(end)),
        },
      );
      if (current()) connection = made;
      else made.drop();
      // The listener may have been told before there was a connection to use.
      if (current() && opened) await greet(made, mine);
    } catch (error) {
      if (current()) onEnded({ kind: 'unreachable', detail: error instanceof Error ? error.message : String(error) });
    }
  }

  function onOpened(mine: number): void {
    opened = true;
    openedAt = heardAt = now();
    if (connection !== null) void greet(connection, mine);
  }

  /** Listens, says that it is there, and tells what waits. */
  async function greet(through: Connection, mine: number): Promise<void> {
    try {
      const subscriptions = linkSubscriptions(options.jobId, options.role, options.user);
      const refused = await through.subscribe(subscriptions);
      if (mine !== generation) return;
      echoed = false;
      // Whoever may not even listen would be thrown out for speaking.
      muted = refused.length === Object.keys(subscriptions).length;
      options.onStatus({ kind: muted ? 'no-rights' : 'linked' });
      if (muted) return;
      presenceTold = '';
      tellPresence(through);
      sender.over(through);
    } catch {
      // The connection ended meanwhile, and says so.
    }
  }

  function tellPresence(through: Connection): void {
    const counted = JSON.stringify(sender.boots());
    if (counted === presenceTold) return;
    presenceTold = counted;
    presenceToldAt = now();
    quietly(through.publish(topic('link'), JSON.stringify(presence('up')), { qos: 1, retain: true }));
  }

  function onEnded(end: ConnectionEnd): void {
    // The next node has its turn, whatever this one's fault was.
    node += 1;
    const steady = opened && seconds(openedAt) >= STEADY_SECONDS;
    generation += 1;
    connection?.drop();
    connection = null;
    opened = false;
    states.lost();
    sender.lost();
    if (end.kind === 'refused') {
      halted = true;
      options.onStatus({ kind: 'refused', reason: end });
      return;
    }
    // All addresses have their turn before the waits grow: one of a cluster may be there while the others are not.
    const retryInSeconds = backoffSeconds(steady ? 0 : Math.floor(failures / addresses.length), options.random());
    failures = steady ? 1 : failures + 1;
    waitUntil = { from: now(), milliseconds: retryInSeconds * 1000 };
    options.onStatus({ kind: 'waiting', reason: end, retryInSeconds });
  }

  function receive(topicText: string, payload: Uint8Array, retained: boolean): void {
    if (payload.byteLength > LINK_PAYLOAD_BYTES) return;
    let text: string;
    try {
      text = decoder.decode(payload);
    } catch {
      return;
    }
    const reading = linkMessageFrom(topicText, text);
    if (!reading.ok || reading.value.topic.jobId !== options.jobId) return;
    if (reading.value.topic.device === options.user) {
      if (doubted) options.onStatus({ kind: 'linked' });
      echoed = true;
      doubted = false;
      doubtfulNodes = 0;
      return;
    }
    options.onMessage(reading.value, { retained, at: now() });
  }

  function tick(): void {
    if (ended || halted) return;
    if (waitUntil !== null) {
      if (elapsedMilliseconds(waitUntil.from, now()) >= waitUntil.milliseconds) void begin();
      return;
    }
    if (!opened) {
      if (seconds(startedAt) > OPENING_SECONDS) onEnded({ kind: 'unreachable', detail: 'it was reached and gave no answer' });
      return;
    }
    if (seconds(heardAt) > DEAD_SECONDS) {
      onEnded({ kind: 'broken', detail: 'nothing was heard any more' });
      return;
    }
    if (seconds(heardAt) > QUIET_SECONDS && seconds(pingedAt) > 4) {
      pingedAt = now();
      connection?.ping();
    }
    if (sender.unconfirmedSeconds() > UNCONFIRMED_SECONDS) {
      onEnded({ kind: 'broken', detail: 'nothing was confirmed any more' });
      return;
    }
    if (muted) return;
    // Perhaps it is this node alone: one that came back brings some devices nothing of what is confirmed.
    if (doubted && addresses.length > 1 && doubtfulNodes < 2 * addresses.length && seconds(openedAt) > DOUBTED_SECONDS) {
      doubtfulNodes += 1;
      onEnded({ kind: 'broken', detail: 'its own word was not heard' });
      return;
    }
    if (!echoed && !doubted && seconds(openedAt) > ECHO_SECONDS) {
      doubted = true;
      options.onStatus({ kind: 'no-rights' });
    }
    if (connection !== null && seconds(presenceToldAt) > PRESENCE_SECONDS) tellPresence(connection);
  }

  function retry(): void {
    if (ended) return;
    failures = 0;
    halted = false;
    connection?.drop();
    connection = null;
    sender.lost();
    void begin();
  }

  const endTicks = time.every(TICK_MILLISECONDS, tick);
  const endShown = page?.onShown((hiddenSeconds) => {
    // A socket can stay open and dead through a sleep.
    if (!halted && (hiddenSeconds > HIDDEN_SECONDS || !opened)) retry();
  });
  const endOnline = page?.onOnline(() => {
    if (!halted && !opened) retry();
  });
  void begin();

  return {
    tellState(state) {
      if (connection === null || !opened || muted) return;
      states.tell(connection, JSON.stringify({ ...stamp(), eventCount: sender.count(), ...state }));
    },
    tellEvent: (fact, atMilliseconds) => sender.tell(fact, atMilliseconds),
    ask(device, question) {
      quietly(connection?.publish(topic('ask', device), JSON.stringify({ ...stamp(), ...question }), { qos: 0, retain: false }));
    },
    answer(device, answer) {
      quietly(connection?.publish(topic('answer', device), JSON.stringify({ ...stamp(), ...answer }), { qos: 0, retain: false }));
    },
    tellAgain: (boot, fromSequence, toSequence) => sender.again(boot, fromSequence, toSequence),
    moveOn() {
      if (opened && addresses.length > 1) onEnded({ kind: 'broken', detail: 'what others tell was not heard' });
    },
    retry,
    async end() {
      if (ended) return;
      ended = true;
      endTicks();
      endShown?.();
      endOnline?.();
      const through = connection;
      if (through !== null && opened && !muted) {
        const goodbye = async (): Promise<void> => {
          while (sender.waitingCount() > 0) await time.after(50);
          await through.publish(topic('link'), JSON.stringify(presence('ended')), { qos: 1, retain: false });
          await Promise.all([
            through.publish(topic('link'), '', { qos: 1, retain: true }),
            options.role === 'ship' ? through.publish(topic('state'), '', { qos: 1, retain: true }) : null,
          ]);
          await through.leave();
        };
        await Promise.race([goodbye().catch(() => {}), time.after(LEAVE_SECONDS * 1000)]);
      }
      connection?.drop();
      sender.lost();
      options.onStatus({ kind: 'ended' });
    },
  };
}

/** A will goes within CONNECT, of which brokers take a kilobyte from whoever has not shown a password: the newest boots only. */
function willOf(presence: LinkPresence): LinkPresence {
  return { ...presence, boots: presence.boots.slice(-WILL_BOOTS) };
}
