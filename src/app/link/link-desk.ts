import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { GroundFact, LinkPresence } from '../../core/wire/link-messages.ts';
import type { LinkRole } from '../../core/wire/link-topics.ts';
import type { LinkRoom, RoomView } from '../../link/link-room.ts';
import { deviceInstant } from '../../link/link-clock.ts';
import type { createShipTeller } from '../../link/ship-teller.ts';
import type { Database } from '../../store/database.ts';
import { readFlights } from '../../store/flights.ts';
import type { StoredFlight } from '../../store/schema.ts';
import type { FlightDesk } from '../flight/flight-desk.ts';
import type { FlightHere } from '../flight/flight-here.ts';
import { newId } from '../new-id.ts';
import { type GroundCallShown, groundCallsShown } from './ground-calls.ts';
import { createNearShips } from './near-ships.ts';
import { type LinkSettings, linkSettingsFault, readLinkSettings, saveLinkSettings } from './link-settings.ts';
import { linkPage } from './page-events.ts';
import { createStoredOutbox } from './stored-outbox.ts';

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
  /** Other ships that are near or off their timetable, as they say over the link; words, and never that it is clear. */
  readonly nearShips: ReadonlySignal<readonly string[]>;
  /** True while the link is wanted and is not there. */
  readonly lost: ReadonlySignal<boolean>;
  /** Joins a job's room as an observer whenever the settings allow, until the returned function is called. */
  observe(jobId: string, name: string, digest: string | null): () => void;
  tell(fact: GroundFact): void;
  retry(): void;
}

/** Who wants to be in which room. */
interface Wanted {
  readonly jobId: string;
  readonly role: LinkRole;
  readonly presence: Pick<LinkPresence, 'shipIndex' | 'name' | 'jobDigest'>;
  readonly flight: FlightHere | null;
}

/** How often a flight is looked at; it never waits for this, and this never enters into it. */
const LOOK_MILLISECONDS = 200;
const STATE_MILLISECONDS = 1000;
const SHOW_MILLISECONDS = 250;
const DIGEST_ATTEMPTS = 6;
const NOBODY: readonly string[] = [];

export function createLinkDesk(database: Database, flightDesk: Pick<FlightDesk, 'state'>): LinkDesk {
  const settings = signal<LinkSettings | null>(null);
  const settingsRead = signal(false);
  const observed = signal<Wanted | null>(null);
  const flown = signal<Wanted | null>(null);
  const room = signal<RoomView | null>(null);
  const tick = signal(0);
  const outbox = createStoredOutbox(database, () => Date.now());
  const nearShips = createNearShips();
  const wanted = computed(() => flown.value ?? observed.value);
  let current: { readonly room: Promise<LinkRoom | null>; end(): void } | null = null;

  void readLinkSettings(database).then((stored) => {
    if (!settingsRead.peek()) settings.value = stored;
    settingsRead.value = true;
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
    void digestOfFlight(database, flight.flightId).then((digest) => {
      const now = flightDesk.state.peek();
      if (now.kind === 'flying' && now.flight === flight) flown.value = { ...base, presence: { ...presence, jobDigest: digest } };
    });
  });

  /** Every change of what is wanted, or of the settings, makes a room anew. */
  effect(() => {
    const want = wanted.value;
    const given = settings.value;
    current?.end();
    current = null;
    room.value = null;
    if (want === null || given === null || !given.on || linkSettingsFault(given, location.protocol) !== null) return;
    current = enter(want, given);
  });

  function enter(want: Wanted, { address, user, password }: LinkSettings): NonNullable<typeof current> {
    let over = false;
    let showing: ReturnType<typeof setTimeout> | undefined;
    const endings: (() => void)[] = [];
    const show = (made: LinkRoom): void => {
      // Many messages make one picture.
      showing ??= setTimeout(() => {
        showing = undefined;
        if (!over) room.value = made.view();
      }, SHOW_MILLISECONDS);
    };
    const entering = (async (): Promise<LinkRoom | null> => {
      // Fetched by themselves: a flight without a link carries none of it along.
      const [{ joinLinkRoom }, { connectByMqtt }, teller] = await Promise.all([
        import('../../link/link-room.ts'),
        import('../../link/mqtt-connection.ts'),
        import('../../link/ship-teller.ts'),
      ]);
      let made: LinkRoom | null = null;
      made = await joinLinkRoom({
        connect: connectByMqtt,
        address,
        user,
        password,
        jobId: want.jobId,
        role: want.role,
        boot: newId(),
        presence: want.presence,
        outbox,
        now: deviceInstant,
        random: Math.random,
        page: linkPage(),
        onChange: () => {
          if (made !== null) show(made);
        },
      });
      if (over) {
        await made.end();
        return null;
      }
      show(made);
      if (want.flight !== null) endings.push(tellFlight(want.flight, made, teller.createShipTeller));
      return made;
    })().catch(() => null);
    const timer = setInterval(() => (tick.value += 1), 1000);
    return {
      room: entering,
      end() {
        over = true;
        clearTimeout(showing);
        clearInterval(timer);
        for (const ending of endings) ending();
        void entering.then((made) => made?.end());
      },
    };
  }

  return {
    settings,
    settingsRead,
    setSettings(next) {
      settingsRead.value = true;
      settings.value = next;
      // A device that cannot keep them still uses them.
      saveLinkSettings(database, next).catch(() => {});
    },
    room,
    groundCalls: computed(() => {
      void tick.value;
      return groundCallsShown(room.value, deviceInstant());
    }),
    nearShips: computed(() => {
      void tick.value;
      const flight = flown.value?.flight ?? null;
      return flight === null ? NOBODY : nearShips(room.value, flight.state(), flight.cues.peek().heightFeet, deviceInstant());
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

/** Looks at a flight from outside, a few times a second, and tells of it; the returned function tells its end. */
function tellFlight(flight: FlightHere, room: LinkRoom, create: typeof createShipTeller): () => void {
  const teller = create(({ device: 'flight', rehearsal: 'rehearsal', recorded: 'replay' } as const)[flight.source]);
  let toldAtMilliseconds = -Infinity;
  let undoable: string | null = null;
  const look = (): void => {
    const now = Date.now();
    try {
      const touch = flight.undoableTouch.peek();
      const touched = touch !== undoable && touch !== null ? teller.touched(touch) : null;
      undoable = touch;
      if (touched !== null) room.tellEvent(touched, now);
      const { facts, told } = teller.look(flight.state(), flight.cues.peek(), now);
      for (const fact of facts) room.tellEvent(fact, now);
      if (told !== null && now - toldAtMilliseconds >= STATE_MILLISECONDS - LOOK_MILLISECONDS / 2) {
        toldAtMilliseconds = now;
        room.tellState(told);
      }
    } catch {
      // What cannot be told is no concern of the flight.
    }
  };
  const timer = setInterval(look, LOOK_MILLISECONDS);
  look();
  return () => {
    clearInterval(timer);
    for (const fact of teller.finish()) room.tellEvent(fact, Date.now());
  };
}

/** The digest of the job as it was when the flight began; null while the store does not tell. */
async function digestOfFlight(database: Database, flightId: string): Promise<string | null> {
  let stored: StoredFlight | undefined;
  // A flight begins before it is stored.
  for (let attempt = 0; attempt < DIGEST_ATTEMPTS && stored === undefined; attempt += 1) {
    if (attempt > 0) await new Promise((resolve) => setTimeout(resolve, LOOK_MILLISECONDS));
    stored = (await readFlights(database).catch(() => null))?.flights.find(({ id }) => id === flightId);
  }
  if (stored === undefined) return null;
  const [{ parseJob }, { jobDigest }] = await Promise.all([import('../../core/job/parse-job.ts'), import('./job-digest.ts')]);
  const reading = parseJob(stored.jobFileText);
  return reading.ok ? jobDigest(reading.value).catch(() => null) : null;
}
