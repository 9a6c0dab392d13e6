import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { waitsForLeadsTime } from '../../core/guidance/formation/formation-progress.ts';
import type { GroundFact } from '../../core/wire/link-messages.ts';
import { deviceInstant } from '../../link/link-clock.ts';
import type { RoomView } from '../../link/link-room.ts';
import type { Database } from '../../store/database.ts';
import type { FlightDesk } from '../flight/flight-desk.ts';
import type { EnteredRoom, Wanted } from './enter-room.ts';
import type { GroundCallShown } from './ground-calls.ts';
import { type LinkSettings, readLinkSettings, saveLinkSettings } from './link-settings.ts';
import type { ShipCaution } from './near-ships.ts';
import type { ToldInFlight } from './told-in-flight.ts';

/** The page's one link, in flight as a ship and on the Ground screen as an observer. */
export interface LinkDesk {
  /** Null until they have been read, or when there are none. */
  readonly settings: ReadonlySignal<LinkSettings | null>;
  readonly settingsRead: ReadonlySignal<boolean>;
  /** Takes new settings, and the link anew with them. */
  setSettings(settings: LinkSettings): void;
  /** What the link knows; null while this page is in no room. */
  readonly room: ReadonlySignal<RoomView | null>;
  /** What the ground called, for the cue screen: words, and nothing that acts. */
  readonly groundCalls: ReadonlySignal<readonly GroundCallShown[]>;
  /** Other ships that are near, off their timetable or by another, as they say over the link; words, and never that it is clear. */
  readonly nearShips: ReadonlySignal<readonly ShipCaution[]>;
  /** Other devices that fly as the same ship; words alone. */
  readonly sameShip: ReadonlySignal<readonly string[]>;
  /** True while the link is wanted and is not there. */
  readonly lost: ReadonlySignal<boolean>;
  /** Joins a job's room as an observer whenever the settings allow, until the returned function is called. */
  observe(jobId: string, name: string, digest: string | null): () => void;
  tell(fact: GroundFact): void;
  retry(): void;
}

/** Fetched with the first room: a flight without a link carries none of it along. */
const entering = () => import('./enter-room.ts');
const NOBODY: readonly never[] = [];
const NO_CALLS: readonly GroundCallShown[] = [];

export function createLinkDesk(database: Database, flightDesk: Pick<FlightDesk, 'state'>): LinkDesk {
  const settings = signal<LinkSettings | null>(null);
  const settingsRead = signal(false);
  const observed = signal<Wanted | null>(null);
  const flown = signal<Wanted | null>(null);
  const room = signal<RoomView | null>(null);
  const tick = signal(0);
  /** Null until this page flies with a link. */
  const told = signal<ToldInFlight | null>(null);
  const wanted = computed(() => flown.value ?? observed.value);
  /** While the screen asks for a choice of times, the lead's is no caution besides: not for the rest of a second either. */
  const asksForTime = computed(() => {
    const flight = flown.value?.flight;
    void flight?.cues.value;
    const state = flight?.state();
    return state !== undefined && state.phase !== 'idle' && waitsForLeadsTime(state.flight.formation);
  });
  let current: EnteredRoom | null = null;

  void readLinkSettings(database).then((stored) => {
    if (!settingsRead.peek()) settings.value = stored;
    settingsRead.value = true;
    if (stored?.on === true) void holdTo(stored.address, Promise.resolve());
  });

  effect(() => {
    const state = flightDesk.state.value;
    if (state.kind !== 'flying') {
      flown.value = null;
      return;
    }
    const { flight } = state;
    const guidance = flight.state();
    const setup = guidance.phase === 'idle' ? null : guidance.flight.setup;
    const base = { jobId: flight.jobId, role: 'ship', flight } as const;
    const presence = { shipIndex: setup?.shipIndex ?? 0, name: setup?.shipName ?? '' };
    void entering()
      .then(({ digestOfFlight }) => digestOfFlight(database, flight.flightId))
      .then((digest) => {
        const now = flightDesk.state.peek();
        if (now.kind === 'flying' && now.flight === flight) flown.value = { ...base, presence: { ...presence, jobDigest: digest } };
      });
  });

  /** Every change of what is wanted, or of the settings, makes a room anew. */
  effect(() => {
    const wish = wanted.value;
    const given = settings.value;
    current?.end();
    current = null;
    room.value = null;
    if (wish === null || given === null || !given.on) return;
    current = enterLater(wish, given);
  });

  /** What is said before the room is there waits for it. */
  function enterLater(wish: Wanted, given: LinkSettings): EnteredRoom {
    const timer = setInterval(() => (tick.value += 1), 1000);
    const { flight } = wish;
    if (flight !== null) {
      const { jobDigest } = wish.presence;
      void import('./told-in-flight.ts').then((module) => (told.value = module.createToldInFlight(flight, jobDigest)));
    }
    const entered = entering().then(({ enterRoom }) => enterRoom(database, wish, given, (view) => (room.value = view)));
    return {
      room: entered.then((each) => each.room).catch(() => null),
      end() {
        clearInterval(timer);
        void entered.then((each) => each.end()).catch(() => {});
      },
    };
  }

  /** A page that was held to another host is loaded again for this one, never under a flight. */
  async function holdTo(address: string, saving: Promise<unknown>): Promise<void> {
    const { holdLinkTo } = await import('./link-policy.ts');
    if (holdLinkTo(address)) return;
    await saving;
    if (flightDesk.state.peek().kind !== 'flying') location.reload();
  }

  return {
    settings,
    settingsRead,
    setSettings(next) {
      settingsRead.value = true;
      settings.value = next;
      // A device that cannot keep them still uses them.
      const saving = saveLinkSettings(database, next).catch(() => {});
      if (next.on) void holdTo(next.address, saving);
    },
    room,
    groundCalls: computed(() => {
      void tick.value;
      return told.value?.groundCalls(room.value, deviceInstant()) ?? NO_CALLS;
    }),
    nearShips: computed(() => {
      void tick.value;
      void asksForTime.value;
      const flight = flown.value?.flight ?? null;
      return flight === null || told.value === null ? NOBODY : told.value.nearShips(room.value, flight.state(), flight.cues.peek().heightFeet, deviceInstant());
    }),
    sameShip: computed(() => {
      void tick.value;
      return (flown.value !== null && told.value?.sameShip(room.value, flown.value.presence.shipIndex ?? 0, deviceInstant())) || NOBODY;
    }),
    lost: computed(() => wanted.value !== null && settings.value?.on === true && (room.value?.status.kind ?? 'connecting') !== 'linked'),
    observe(jobId, name, digest) {
      const mine: Wanted = { jobId, role: 'ground', presence: { shipIndex: null, name, jobDigest: digest }, flight: null };
      observed.value = mine;
      return () => {
        if (observed.peek() === mine) observed.value = null;
      };
    },
    tell(fact) {
      const at = Date.now();
      void current?.room.then((made) => made?.tellEvent(fact, at));
    },
    retry() {
      void current?.room.then((made) => made?.retry());
    },
  };
}
