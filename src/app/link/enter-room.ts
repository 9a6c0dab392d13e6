import type { LinkPresence } from '../../core/wire/link-messages.ts';
import type { LinkRole } from '../../core/wire/link-topics.ts';
import { deviceTime } from '../../link/link-clock.ts';
import type { LinkRoom, RoomView } from '../../link/link-room.ts';
import type { createShipTeller } from '../../link/ship-teller.ts';
import type { Database } from '../../store/database.ts';
import { readFlights } from '../../store/flights.ts';
import type { StoredFlight } from '../../store/schema.ts';
import type { FlightHere } from '../flight/flight-here.ts';
import { newId } from '../new-id.ts';
import { hangingOfLead } from './hanging-of-lead.ts';
import { flownHere } from './leads-heard.ts';
import { timeOfLead } from './time-of-lead.ts';
import type { LinkSettings } from './link-settings.ts';
import { linkSettingsFault } from './link-settings-fault.ts';
import { linkPage } from './page-events.ts';
import { createStoredOutbox } from './stored-outbox.ts';

/** Who wants to be in which room. */
export interface Wanted {
  readonly jobId: string;
  readonly role: LinkRole;
  readonly presence: Pick<LinkPresence, 'shipIndex' | 'name' | 'jobDigest'>;
  readonly flight: FlightHere | null;
}

/** A room that is being entered, and how it is left. */
export interface EnteredRoom {
  /** Null where it could not be entered. */
  readonly room: Promise<LinkRoom | null>;
  end(): void;
}

/** How often a flight is looked at; it never waits for this, and this never enters into it. */
const LOOK_MILLISECONDS = 200;
const STATE_MILLISECONDS = 1000;
const SHOW_MILLISECONDS = 250;
const DIGEST_ATTEMPTS = 6;

/** Enters a room, unless the settings have a fault; `show` is called with what is known in it, many messages making one picture. */
export function enterRoom(database: Database, wanted: Wanted, settings: LinkSettings, show: (view: RoomView) => void): EnteredRoom {
  const outbox = createStoredOutbox(database, () => Date.now());
  let over = false;
  let showing: ReturnType<typeof setTimeout> | undefined;
  const endings: (() => void)[] = [];
  const shown = (made: LinkRoom): void => {
    // Many messages make one picture.
    showing ??= setTimeout(() => {
      showing = undefined;
      if (!over) show(made.view());
    }, SHOW_MILLISECONDS);
  };
  const entering = (async (): Promise<LinkRoom | null> => {
    if (linkSettingsFault(settings, location.protocol) !== null) return null;
    const { address, user, password } = settings;
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
      jobId: wanted.jobId,
      role: wanted.role,
      boot: newId(),
      presence: wanted.presence,
      outbox,
      time: deviceTime,
      random: Math.random,
      page: linkPage(),
      onChange: () => {
        if (made !== null) shown(made);
      },
    });
    if (over) {
      await made.end();
      return null;
    }
    shown(made);
    if (wanted.flight !== null) endings.push(tellFlight(wanted.flight, made, teller.createShipTeller, wanted.presence.jobDigest));
    return made;
  })().catch(() => null);
  return {
    room: entering,
    end() {
      over = true;
      clearTimeout(showing);
      for (const ending of endings) ending();
      void entering.then((made) => made?.end());
    },
  };
}

/**
 * Looks at a flight from outside, a few times a second, and tells of it; the returned function tells its end. Of all that the others
 * tell it hears two things: for which wind the lead hangs the text, and when the lead's datum is.
 */
function tellFlight(flight: FlightHere, room: LinkRoom, create: typeof createShipTeller, jobDigest: string | null): () => void {
  const own = flownHere(flight, jobDigest);
  const teller = create(own.flightKind);
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
        for (const heard of [timeOfLead, hangingOfLead]) {
          const fact = heard(room.view().ships, flight.state(), own, deviceTime.now());
          if (fact !== null) flight.receive(fact);
        }
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
export async function digestOfFlight(database: Database, flightId: string): Promise<string | null> {
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
