import type { GroundFact, LinkEvent, LinkFact, LinkPresence } from '../core/wire/link-messages.ts';
import type { LinkMessage } from '../core/wire/link-parse.ts';
import { EMPTY_LEDGER, type EventLedger, received } from './event-ledger.ts';
import { createGapWatch } from './gap-watch.ts';
import { elapsedMilliseconds, type LinkInstant, clocksApartMilliseconds } from './link-clock.ts';
import { startLinkSession } from './link-session.ts';
import type { LinkArrival, LinkSession, LinkSessionOptions, LinkStatus } from './link-session-types.ts';
import { ageAtArrival, heardAnswer, heardLive, isClockInDoubt, type MessageAge, type SenderClock } from './sender-clock.ts';
import { newShip, type ShipSeen, withEvent, withPresence, withState } from './ship-seen.ts';
import type { ToldState } from './ship-teller.ts';

/** An event of the ground, as it arrived. */
export interface GroundEventHeard {
  readonly device: string;
  readonly event: LinkEvent & GroundFact;
  readonly at: LinkInstant;
  /** How old it was when it came: a call may have waited for a link. */
  readonly ageAtArrival: MessageAge;
}

/** What a room knows. */
export interface RoomView {
  readonly status: LinkStatus;
  readonly ships: readonly ShipSeen[];
  readonly groundEvents: readonly GroundEventHeard[];
  /** Observers that are linked now. */
  readonly observers: readonly { readonly device: string; readonly name: string }[];
  /** Every boot heard of, and how many of its events came, without a gap from the first on. */
  readonly heard: readonly { readonly of: string; readonly contiguous: number; readonly beyond: number }[];
  /** Events passed on: each once. */
  readonly eventCount: number;
  /** Events that are known to exist and have not come yet. */
  readonly missingCount: number;
  /** Own events that nobody has confirmed yet. */
  readonly waitingCount: number;
  /** False while own events cannot be stored. */
  readonly storing: boolean;
  /** Messages thrown away: not of a known form, or more than there is room for. */
  readonly refusedCount: number;
}

/** One job's link: what others say, each event once, and what is missed asked for. */
export interface LinkRoom {
  view(): RoomView;
  tellState(state: ToldState): void;
  tellEvent(fact: LinkFact, atMilliseconds: number): void;
  retry(): void;
  end(): Promise<void>;
}

export interface LinkRoomOptions extends Omit<LinkSessionOptions, 'onMessage' | 'onStatus' | 'onOutbox'> {
  /** Each event of another device, once, and the device it is of. */
  onEvent?(device: string, event: LinkEvent): void;
  onChange(): void;
}

const TICK_MILLISECONDS = 1000;
const ASK_TIME_MILLISECONDS = 5000;
/** Clocks that part by more were set, or slept: what was concluded from them is void. */
const HEARD_MILLISECONDS = 5000;
const DEAF_MILLISECONDS = 15_000;
/** A ship that is there tells its state every second, and its broker within less that it is lost. */
const SILENT_MILLISECONDS = 30_000;
/** What nobody can tell any more is no reason to wander between nodes. */
const MOVES_LIMIT = 3;
const APART_MILLISECONDS = 1000;
const SHIPS_LIMIT = 100;
const OBSERVERS_LIMIT = 2000;
const GROUND_EVENTS_LIMIT = 500;
/** Answers to "what time is it" a second. */
const ANSWERS_LIMIT = 25;

/** Joins a job's link and stays in it until told to end. */
export async function joinLinkRoom(options: LinkRoomOptions): Promise<LinkRoom> {
  const { time, random, onChange, onEvent } = options;
  const { now } = time;
  const ships = new Map<string, ShipSeen>();
  const observers = new Map<string, string>();
  const groundEvents: Omit<GroundEventHeard, 'ageAtArrival'>[] = [];
  const groundClocks = new Map<string, { readonly boot: string; readonly clock: SenderClock }>();
  const gaps = createGapWatch(random);
  const timeAsked = new Map<string, { readonly nonce: string; readonly atMilliseconds: number }>();
  let ledger: EventLedger = EMPTY_LEDGER;
  let status: LinkStatus = { kind: 'connecting' };
  let waitingCount = 0;
  let storing = true;
  let refusedCount = 0;
  let eventCount = 0;
  let answers = 0;
  /** Since when events of a ship that is heard are asked for in vain, how many were heard then, and how often a node was given up. */
  let deaf = { since: now(), eventCount: -1, moves: 0 };
  let lastTick = now();
  let ended = false;

  const changeShip = (device: string, change: (ship: ShipSeen) => ShipSeen): void => {
    const before = ships.get(device);
    if (before === undefined && ships.size >= SHIPS_LIMIT) {
      refusedCount += 1;
      return;
    }
    ships.set(device, change(before ?? newShip(device)));
  };

  function hear(message: LinkMessage, { retained, at }: LinkArrival): void {
    const { device, role } = message.topic;
    switch (message.kind) {
      case 'state':
        gaps.known({ device, boot: message.state.boot, count: message.state.eventCount });
        changeShip(device, (ship) => withState(ship, message.state, retained, at));
        break;
      case 'link':
        hearPresence(device, role, message.presence, retained, at);
        break;
      case 'cleared':
        if (role === 'ground') observers.delete(device);
        else if (ships.has(device)) changeShip(device, (ship) => ({ ...ship, ended: true }));
        break;
      case 'event':
        hearEvent(device, role, message.event, at);
        break;
      case 'ask':
        if (message.ask.kind === 'events') session?.tellAgain(message.ask.ofBoot, message.ask.fromSequence, message.ask.toSequence);
        else if ((answers += 1) <= ANSWERS_LIMIT)
          session?.answer(device, { kind: 'time', nonce: message.ask.nonce, receivedAtMilliseconds: Math.round(at.wallMilliseconds) });
        break;
      case 'answer': {
        const asked = timeAsked.get(device);
        if (asked?.nonce !== message.answer.nonce) break;
        timeAsked.delete(device);
        if (role === 'ground') {
          const known = groundClocks.get(device);
          const clock = heardAnswer(
            known?.clock ?? null,
            asked.atMilliseconds,
            message.answer.receivedAtMilliseconds,
            message.answer.sentAtMilliseconds,
            at.wallMilliseconds,
          );
          if (clock !== null && known?.boot === message.answer.boot) groundClocks.set(device, { boot: known.boot, clock });
          break;
        }
        changeShip(device, (ship) =>
          ship.boot === message.answer.boot
            ? {
                ...ship,
                clock: heardAnswer(
                  ship.clock,
                  asked.atMilliseconds,
                  message.answer.receivedAtMilliseconds,
                  message.answer.sentAtMilliseconds,
                  at.wallMilliseconds,
                ),
              }
            : ship,
        );
        break;
      }
    }
    onChange();
  }

  function hearPresence(device: string, role: 'ship' | 'ground', presence: LinkPresence, retained: boolean, at: LinkInstant): void {
    for (const { boot, count } of presence.boots) gaps.known({ device, boot, count });
    if (role === 'ground' && presence.state !== 'lost' && !retained) hearGroundClock(device, presence.boot, presence.sentAtMilliseconds, at);
    if (role === 'ship') changeShip(device, (ship) => withPresence(ship, presence, retained, at));
    else if (presence.state !== 'up') observers.delete(device);
    else if (observers.has(device) || observers.size < OBSERVERS_LIMIT) observers.set(device, presence.name === '' ? device : presence.name);
  }

  function hearGroundClock(device: string, boot: string, sentAtMilliseconds: number, at: LinkInstant): void {
    const known = groundClocks.get(device);
    if (known === undefined && groundClocks.size >= OBSERVERS_LIMIT) return;
    groundClocks.set(device, { boot, clock: heardLive(known?.boot === boot ? known.clock : null, sentAtMilliseconds, at.wallMilliseconds) });
  }

  function hearEvent(device: string, role: 'ship' | 'ground', event: LinkEvent, at: LinkInstant): void {
    gaps.known({ device, boot: event.boot, count: event.sequence + 1 });
    const next = received(ledger, device, event.boot, event.sequence);
    ({ ledger } = next);
    if (next.verdict === 'refused') refusedCount += 1;
    if (next.verdict !== 'new') return;
    if (role === 'ground') hearGroundClock(device, event.boot, event.sentAtMilliseconds, at);
    if (role === 'ship') changeShip(device, (ship) => withEvent(ship, event));
    else if (event.kind === 'call' || event.kind === 'rated') {
      groundEvents.push({ device, event, at });
      if (groundEvents.length > GROUND_EVENTS_LIMIT) groundEvents.shift();
    }
    eventCount += 1;
    onEvent?.(device, event);
  }

  /**
   * After a node was lost, another may let a device in and bring it no events, or nothing at all of ships that are there: it is
   * given up for the next.
   */
  function noticeDeafness(moment: LinkInstant): void {
    const sinceState = ({ last }: ShipSeen): number => (last === null || last.retained ? Infinity : elapsedMilliseconds(last.at, moment));
    const isThere = (device: string): boolean => {
      const ship = ships.get(device);
      return ship !== undefined && (sinceState(ship) < HEARD_MILLISECONDS || (ship.presence === 'up' && !ship.ended));
    };
    const isSilent = (ship: ShipSeen): boolean =>
      ship.presence === 'up' && !ship.ended && sinceState(ship) > SILENT_MILLISECONDS && sinceState(ship) < Infinity;
    if (eventCount !== deaf.eventCount) deaf = { since: moment, eventCount, moves: 0 };
    else if (!gaps.missingDevices(ledger).some(isThere) && ![...ships.values()].some(isSilent)) deaf = { ...deaf, since: moment };
    else if (elapsedMilliseconds(deaf.since, moment) > DEAF_MILLISECONDS && deaf.moves < MOVES_LIMIT) {
      deaf = { ...deaf, since: moment, moves: deaf.moves + 1 };
      session?.moveOn();
    }
  }

  function tick(): void {
    const moment = now();
    answers = 0;
    if (Math.abs(clocksApartMilliseconds(lastTick, moment)) > APART_MILLISECONDS) {
      for (const [device, ship] of ships) ships.set(device, { ...ship, clock: null });
      groundClocks.clear();
    }
    lastTick = moment;
    if (session === null || status.kind !== 'linked') {
      // Who has no link hears nothing, which says nothing of the node that comes next.
      deaf = { ...deaf, since: moment };
      return;
    }
    for (const { device, boot, fromSequence, toSequence } of gaps.due(ledger, moment.monotonicMilliseconds)) {
      session.ask(device, { kind: 'events', ofBoot: boot, fromSequence, toSequence });
    }
    noticeDeafness(moment);
    const callers = new Set(groundEvents.slice(-8).map(({ device }) => device));
    const clocks = [
      ...[...ships.values()].filter((ship) => !ship.ended).map(({ device, clock }) => ({ device, clock })),
      ...[...callers].map((device) => ({ device, clock: groundClocks.get(device)?.clock ?? null })),
    ];
    for (const { device, clock } of clocks) {
      if (clock === null || !isClockInDoubt(clock)) continue;
      const asked = timeAsked.get(device);
      if (asked !== undefined && moment.wallMilliseconds - asked.atMilliseconds < ASK_TIME_MILLISECONDS && moment.wallMilliseconds >= asked.atMilliseconds)
        continue;
      const nonce = Math.floor(random() * 2 ** 40).toString(36);
      timeAsked.set(device, { nonce, atMilliseconds: moment.wallMilliseconds });
      session.ask(device, { kind: 'time', nonce });
    }
    onChange();
  }

  let session: LinkSession | null = null;
  session = await startLinkSession({
    ...options,
    onMessage: hear,
    onStatus(next) {
      status = next;
      if (next.kind !== 'linked') observers.clear();
      onChange();
    },
    onOutbox(waiting, isStoring) {
      waitingCount = waiting;
      storing = isStoring;
      onChange();
    },
  });
  const endTicks = time.every(TICK_MILLISECONDS, tick);

  return {
    view: () => ({
      status,
      ships: [...ships.values()],
      groundEvents: groundEvents.map((heard) => {
        const known = groundClocks.get(heard.device);
        return {
          ...heard,
          ageAtArrival: ageAtArrival(known?.boot === heard.event.boot ? known.clock : null, heard.event.sentAtMilliseconds, heard.at.wallMilliseconds),
        };
      }),
      observers: [...observers].map(([device, name]) => ({ device, name })),
      heard: [...ledger.boots].map(([of, { contiguous, beyond }]) => ({ of, contiguous, beyond: beyond.length })),
      eventCount,
      missingCount: gaps.missingCount(ledger),
      waitingCount,
      storing,
      refusedCount,
    }),
    tellState: (state) => session.tellState(state),
    tellEvent: (fact, atMilliseconds) => session.tellEvent(fact, atMilliseconds),
    retry: () => session.retry(),
    async end() {
      if (ended) return;
      ended = true;
      endTicks();
      await session.end();
    },
  };
}
