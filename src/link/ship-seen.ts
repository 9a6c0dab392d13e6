import type { LinkEvent, LinkPresence, ShipState } from '../core/wire/link-messages.ts';
import { elapsedMilliseconds, type LinkInstant } from './link-clock.ts';
import { ageAtArrival, heardLive, type SenderClock } from './sender-clock.ts';

/** Smoke that a ship laid, as it told: where, and when by the ship's clock. */
export interface LaidSmoke {
  readonly letterIndex: number | null;
  readonly character: string | null;
  readonly points: readonly { readonly atMilliseconds: number; readonly latitudeDegrees: number; readonly longitudeDegrees: number }[];
}

/** Where a text was hung before the first smoke; no wind where it hangs as briefed. */
export type Hung = Pick<Extract<LinkEvent, { kind: 'hung' }>, 'windFromDegreesTrue' | 'windSpeedMetresPerSecond' | 'movedEastMetres' | 'movedNorthMetres'>;

/** A state with its arrival. */
export interface StateHeard {
  readonly state: ShipState;
  readonly at: LinkInstant;
  /** From the broker's memory, not from the ship. */
  readonly retained: boolean;
}

/** All that is known of one ship over the link. */
export interface ShipSeen {
  readonly device: string;
  /** Null until it is said. */
  readonly shipIndex: number | null;
  readonly name: string;
  readonly jobDigest: string | null;
  readonly flightKind: 'flight' | 'rehearsal' | 'replay' | null;
  readonly presence: LinkPresence['state'] | null;
  readonly last: StateHeard | null;
  /** Of the ship's present boot. */
  readonly clock: SenderClock | null;
  readonly boot: string | null;
  /** Boots that were followed by another: what still comes of them is an echo. */
  readonly pastBoots: readonly string[];
  /** By the ship's clock. */
  readonly datumMilliseconds: number | null;
  /** Where the ship says that the text hangs; null until it does. */
  readonly hung: Hung | null;
  /** When it knocked it off, by its clock; null while it has not, or has gone on since. */
  readonly knockedOffMilliseconds: number | null;
  /** In the order it was laid. */
  readonly laid: readonly LaidSmoke[];
  /** Places while smoking since the last that was told as laid. */
  readonly tail: LaidSmoke['points'];
  readonly ended: boolean;
}

/** How much a ship's place can be trusted now. */
export type ShipFreshness =
  | { readonly kind: 'live' | 'ageing' | 'stale'; readonly ageSeconds: number }
  /** Its clock and ours differ, or it was kept by the broker: how old it is, nobody knows. */
  | { readonly kind: 'unknown' }
  /** The link to it was lost. */
  | { readonly kind: 'lost'; readonly ageSeconds: number | null }
  /** It is there but has no position. */
  | { readonly kind: 'no-position' }
  | { readonly kind: 'ended' };

/** As strict as for the own position: live up to here, then marked, then only a last known place. */
export const LIVE_SECONDS = 3;
export const AGEING_SECONDS = 10;
/** Without a word for so long a ship is lost, whatever its broker says. */
const SILENT_SECONDS = 30;
const TAIL_LIMIT = 120;

/** A ship of which only the name is known. */
export function newShip(device: string): ShipSeen {
  return {
    device,
    shipIndex: null,
    name: device,
    jobDigest: null,
    flightKind: null,
    presence: null,
    last: null,
    clock: null,
    boot: null,
    pastBoots: [],
    datumMilliseconds: null,
    hung: null,
    knockedOffMilliseconds: null,
    laid: [],
    tail: [],
    ended: false,
  };
}

/** The ship after a message of its presence. */
export function withPresence(ship: ShipSeen, presence: LinkPresence, retained: boolean, at: LinkInstant): ShipSeen {
  const next = {
    ...ship,
    presence: presence.state,
    shipIndex: presence.shipIndex ?? ship.shipIndex,
    name: presence.name === '' ? ship.name : presence.name,
    jobDigest: presence.jobDigest,
  };
  // A will was written when the link was made, and says nothing of the time it is read.
  return retained || presence.state === 'lost'
    ? next
    : withClock({ ...next, ended: presence.state === 'ended' }, presence.boot, presence.sentAtMilliseconds, at);
}

/** The ship after a word of where it is; one older than what is known changes nothing. */
export function withState(ship: ShipSeen, state: ShipState, retained: boolean, at: LinkInstant): ShipSeen {
  const known = ship.last;
  if (known !== null && known.state.boot === state.boot && state.sentAtMilliseconds <= known.state.sentAtMilliseconds) return ship;
  if (ship.pastBoots.includes(state.boot)) return ship;
  // What the broker kept is news only to whoever has heard nothing yet.
  if (retained && known !== null) return ship;
  const clocked = retained ? ship : withClock(ship, state.boot, state.sentAtMilliseconds, at);
  const point =
    state.smoke !== 'on' || state.fix === null || retained
      ? null
      : { atMilliseconds: state.sentAtMilliseconds, latitudeDegrees: state.fix.latitudeDegrees, longitudeDegrees: state.fix.longitudeDegrees };
  return {
    ...clocked,
    shipIndex: state.shipIndex,
    last: { state, at, retained },
    // A will that was published before the ship came back is overtaken by its word.
    presence: retained ? clocked.presence : 'up',
    ended: retained && clocked.ended,
    tail: point === null ? clocked.tail : [...clocked.tail, point].slice(-TAIL_LIMIT),
  };
}

/** The ship after an event that was not received before. */
export function withEvent(ship: ShipSeen, event: LinkEvent): ShipSeen {
  switch (event.kind) {
    case 'began':
      return { ...ship, flightKind: event.flightKind, shipIndex: event.shipIndex, name: event.shipName === '' ? ship.name : event.shipName };
    case 'datum':
      return { ...ship, datumMilliseconds: event.datumMilliseconds };
    case 'hung': {
      const { windFromDegreesTrue, windSpeedMetresPerSecond, movedEastMetres, movedNorthMetres } = event;
      return { ...ship, hung: { windFromDegreesTrue, windSpeedMetresPerSecond, movedEastMetres, movedNorthMetres } };
    }
    case 'laid': {
      const points = event.secondsAfter.map((seconds, index) => ({
        atMilliseconds: event.fromMilliseconds + seconds * 1000,
        latitudeDegrees: event.latitudesDegrees[index] ?? 0,
        longitudeDegrees: event.longitudesDegrees[index] ?? 0,
      }));
      const untilMilliseconds = points.at(-1)?.atMilliseconds ?? 0;
      const laid = [...ship.laid, { letterIndex: event.letterIndex, character: event.character, points }];
      // Events that were asked for again come out of order.
      laid.sort((one, other) => (one.points[0]?.atMilliseconds ?? 0) - (other.points[0]?.atMilliseconds ?? 0));
      return { ...ship, laid, tail: ship.tail.filter(({ atMilliseconds }) => atMilliseconds > untilMilliseconds) };
    }
    case 'touched':
      return event.touch === 'knockedOff' ? { ...ship, knockedOffMilliseconds: event.atMilliseconds } : ship;
    case 'phase': {
      // Events that were asked for again come out of order: only a later one says that it flies on.
      const fliesOn = event.phase !== 'finished' && event.atMilliseconds > (ship.knockedOffMilliseconds ?? Infinity);
      return fliesOn ? { ...ship, knockedOffMilliseconds: null } : ship;
    }
    case 'smoke':
      return event.smoke === 'off' ? { ...ship, tail: ship.tail.filter(({ atMilliseconds }) => atMilliseconds > event.atMilliseconds) } : ship;
    default:
      return ship;
  }
}

/** How much the ship's place can be trusted at a moment. */
export function freshness(ship: ShipSeen, now: LinkInstant): ShipFreshness {
  if (ship.ended) return { kind: 'ended' };
  const { last } = ship;
  const age = last === null ? null : ageAtArrival(ship.boot === last.state.boot ? ship.clock : null, last.state.sentAtMilliseconds, last.at.wallMilliseconds);
  const silentSeconds = last === null ? null : elapsedMilliseconds(last.at, now) / 1000;
  const ageSeconds =
    last === null || silentSeconds === null || age?.kind !== 'known' ? null : age.ageMilliseconds / 1000 + silentSeconds + (last.state.fix?.ageSeconds ?? 0);
  if (ship.presence === 'lost' || (silentSeconds !== null && silentSeconds > SILENT_SECONDS)) return { kind: 'lost', ageSeconds };
  if (last === null || last.state.fix === null) return { kind: 'no-position' };
  if (ageSeconds === null) return { kind: 'unknown' };
  return { kind: ageSeconds <= LIVE_SECONDS ? 'live' : ageSeconds <= AGEING_SECONDS ? 'ageing' : 'stale', ageSeconds };
}

/** A time of the ship's clock by ours; null while the clocks are in doubt. */
export function ourMilliseconds(ship: ShipSeen, itsMilliseconds: number): number | null {
  if (ship.clock === null) return null;
  if (ship.clock.answered !== null) return itsMilliseconds + ship.clock.answered.offsetMilliseconds;
  return ageAtArrival(ship.clock, 0, ship.clock.leastDelayMilliseconds).kind === 'known' ? itsMilliseconds : null;
}

function withClock(ship: ShipSeen, boot: string, sentAtMilliseconds: number, at: LinkInstant): ShipSeen {
  // A page that starts anew may have been set to another time meanwhile.
  if (ship.pastBoots.includes(boot)) return ship;
  const clock = ship.boot === boot ? ship.clock : null;
  const pastBoots = ship.boot === null || ship.boot === boot ? ship.pastBoots : [...ship.pastBoots, ship.boot].slice(-16);
  return { ...ship, boot, pastBoots, clock: heardLive(clock, sentAtMilliseconds, at.wallMilliseconds) };
}
