import { siteFromGeodetic } from '../../core/earth/site-frame.ts';
import type { Flight, GuidanceState } from '../../core/guidance/guidance-state.ts';
import { waitsForLeadsTime } from '../../core/guidance/formation/formation-progress.ts';
import { nearing, type ShipMoving } from '../../core/guidance/formation/nearing.ts';
import { plannedPlace } from '../../core/guidance/hanging/planned-place.ts';
import { driftOf, isTrusted, predictedAt } from '../../core/guidance/present.ts';
import { STATE } from '../../core/tracking/estimate.ts';
import { directionFromBearing, radiansFromDegrees, signedRadians } from '../../core/units/angle.ts';
import type { ShipState } from '../../core/wire/link-messages.ts';
import { formatShortTime } from '../../core/text/number-formats.ts';
import { metresFromFeet } from '../../core/units/quantity.ts';
import { elapsedMilliseconds, type LinkInstant } from '../../link/link-clock.ts';
import type { RoomView } from '../../link/link-room.ts';
import type { ShipSeen } from '../../link/ship-seen.ts';
import { DATUMS_APART_SECONDS, type FlownHere, laterDatumSeconds, OLDEST_SECONDS } from './leads-heard.ts';

/** A caution of another ship. */
export interface ShipCaution {
  readonly words: string;
  /** Another ship is near, or where it should not be: to be heard as well. */
  readonly isClose: boolean;
}

/** Two receivers in one aircraft agree within this, late as the link brings the other's. */
const ONE_AIRCRAFT_METRES = 200;
const WITHIN_SECONDS = 20;
/** A height told is believed for telling ships apart when it has been told for so long. */
const HEIGHT_HELD_SECONDS = 60;
const APART_FEET = 300;
/** Farther than this from everywhere that its timetable allows a ship is off it. */
const OFF_PLACE_METRES = 450;
/** The same figures hang the same word; told in whole metres. */
const SAME_HANGING_METRES = 20;
/** All ships hear of a new place within this. */
const HEARD_SECONDS = 5;
const LATENESS_SECONDS = Array.from({ length: 15 }, (_, index) => index - 5);

interface Remembered {
  readonly directionRadians: number;
  readonly at: LinkInstant;
  readonly turnRate: number;
  readonly heightMetres: number | null;
  readonly heightSince: LinkInstant;
}

/**
 * Cautions of other ships, from where they say they are over the link: one that will pass under the job's least distance
 * within 20 s, one that is off its timetable, one with another datum, one that hangs the word elsewhere, one that has another version of
 * the job or does not fly at all. Words to be read; they ask for no manoeuvre, and none never means clear.
 */
export function createNearShips(
  ownFlown: FlownHere,
): (room: RoomView | null, state: GuidanceState, heightFeet: number | null, now: LinkInstant) => readonly ShipCaution[] {
  const remembered = new Map<string, Remembered>();
  const apartSince = new Map<string, LinkInstant>();
  let ownHeight: { readonly feet: number | null; readonly since: LinkInstant } | null = null;

  function remember(device: string, ship: NonNullable<ShipSeen['last']>, direction: number): Remembered {
    const before = remembered.get(device);
    if (before !== undefined && before.at === ship.at) return before;
    const seconds = before === undefined ? 0 : elapsedMilliseconds(before.at, ship.at) / 1000;
    const heightMetres = ship.state.fix?.altitudeMetres ?? null;
    const made: Remembered = {
      directionRadians: direction,
      at: ship.at,
      turnRate: before === undefined || seconds <= 0 || seconds > OLDEST_SECONDS ? 0 : signedRadians(direction - before.directionRadians) / seconds,
      heightMetres,
      heightSince: before !== undefined && before.heightMetres === heightMetres ? before.heightSince : ship.at,
    };
    remembered.set(device, made);
    return made;
  }

  /** Words for a ship that has hung the text elsewhere for longer than it takes all to hear of a new place. */
  function hungApart({ device, name }: ShipSeen, formation: ShipState['formation'], own: Flight, now: LinkInstant): ShipCaution[] {
    const metres = formation === null ? 0 : Math.hypot(formation.movedEastMetres - own.movedEastMetres, formation.movedNorthMetres - own.movedNorthMetres);
    if (metres <= SAME_HANGING_METRES) {
      apartSince.delete(device);
      return [];
    }
    const since = apartSince.get(device) ?? now;
    apartSince.set(device, since);
    if (elapsedMilliseconds(since, now) / 1000 < HEARD_SECONDS) return [];
    const words = `${name.toUpperCase()} ${formation?.hungBy === 'refusal' ? 'REFUSED: HANGS' : 'HANGS'} ${(metres / 1000).toFixed(1)} KM FROM YOU`;
    return [{ words, isClose: false }];
  }

  return (room, state, heightFeet, now) => {
    if (ownHeight === null || ownHeight.feet !== heightFeet) ownHeight = { feet: heightFeet, since: now };
    if (room === null || state.phase === 'idle' || !isTrusted(state.flight)) return [];
    const { flight } = state;
    const { formation } = flight.setup;
    const estimate = predictedAt(flight, flight.atSeconds);
    if (formation === undefined || estimate === null) return [];
    const own = movingFrom(estimate.mean);
    const ownHeld = elapsedMilliseconds(ownHeight.since, now) / 1000 > HEIGHT_HELD_SECONDS;
    return room.ships.flatMap((ship): ShipCaution[] => {
      const { last } = ship;
      const fix = last?.state.fix ?? null;
      if (last === null || fix === null || last.retained || ship.ended) return [];
      const ageSeconds = elapsedMilliseconds(last.at, now) / 1000 + fix.ageSeconds;
      const kind = last.state.formation?.flightKind ?? ship.flightKind ?? ownFlown.flightKind;
      const isTwin = ship.shipIndex === flight.setup.shipIndex;
      // A place that is only simulated is near nobody, and a timetable of the simulator is nobody's. Of a second tablet of this very ship its own line tells.
      if (kind !== ownFlown.flightKind) return isTwin || ageSeconds > OLDEST_SECONDS ? [] : flownApart(ship, kind, ownFlown.flightKind);
      const apartWords = [
        ...(isTwin ? [] : otherVersion(ship, flight, ownFlown)),
        ...timedApart(ship, flight, now),
        ...hungApart(ship, last.state.formation, flight, now),
      ];
      if (ageSeconds > OLDEST_SECONDS || fix.trackDegreesTrue === null || fix.groundSpeedMetresPerSecond === null) return apartWords;
      const direction = directionFromBearing(radiansFromDegrees(fix.trackDegreesTrue));
      const known = remember(ship.device, last, direction);
      const place = siteFromGeodetic(fix, flight.setup.layerHeightMetres, flight.setup.site);
      const speed = fix.groundSpeedMetresPerSecond;
      const other: ShipMoving = {
        eastMetres: place.eastMetres + speed * Math.cos(direction) * ageSeconds,
        northMetres: place.northMetres + speed * Math.sin(direction) * ageSeconds,
        eastMetresPerSecond: speed * Math.cos(direction),
        northMetresPerSecond: speed * Math.sin(direction),
        turnRateRadiansPerSecond: known.turnRate,
      };
      const name = (isTwin ? ship.device : ship.name).toUpperCase();
      const held = ownHeld && elapsedMilliseconds(known.heightSince, now) / 1000 > HEIGHT_HELD_SECONDS;
      const apart =
        held && known.heightMetres !== null && heightFeet !== null && Math.abs(known.heightMetres - metresFromFeet(heightFeet)) > metresFromFeet(APART_FEET);
      // Another tablet of the same aircraft is no other ship; further off it is one that took this ship's name.
      if (isTwin && Math.hypot(other.eastMetres - own.eastMetres, other.northMetres - own.northMetres) < ONE_AIRCRAFT_METRES) return [];
      const near = nearing(own, other, WITHIN_SECONDS);
      if (!apart && near.metres < formation.separationMetres)
        return [{ words: `${name} ${Math.round(near.metres / 50) * 50} m ${near.side}, ${near.inSeconds} s`, isClose: true }, ...apartWords];
      const planned = formation.others.find(({ shipIndex }) => shipIndex === ship.shipIndex);
      if (planned === undefined || flight.datumAtSeconds === null) return apartWords;
      const since = flight.atSeconds - flight.datumAtSeconds;
      const drift = driftOf(estimate, flight);
      const places = LATENESS_SECONDS.flatMap((late) => plannedPlace(planned, since - late) ?? []);
      // Only where its plan has it among the others at every lateness that is allowed.
      if (places.length < LATENESS_SECONDS.length) return apartWords;
      const off = Math.min(
        ...places.map((where) =>
          Math.hypot(
            other.eastMetres - drift.eastMetres - flight.movedEastMetres - where.airEastMetres,
            other.northMetres - drift.northMetres - flight.movedNorthMetres - where.airNorthMetres,
          ),
        ),
      );
      return off > OFF_PLACE_METRES ? [{ words: `${name} OFF ITS TIMETABLE`, isClose: true }, ...apartWords] : apartWords;
    });
  };
}

/** Words for a ship that rehearses or plays a recording while this one flies, or flies while this one rehearses; short ones, for 320 px. */
function flownApart(ship: ShipSeen, kind: FlownHere['flightKind'], ownKind: FlownHere['flightKind']): ShipCaution[] {
  const name = ship.name.toUpperCase();
  if (ownKind === 'flight') return [{ words: `${name} IS NOT FLYING: CALL ${name}`, isClose: false }];
  return ownKind === 'rehearsal' && kind === 'flight' ? [{ words: `${name} FLIES, YOU DO NOT`, isClose: false }] : [];
}

/** Words for a ship with another version of the job, for as long as nobody writes by either. */
function otherVersion(ship: ShipSeen, own: Flight, { jobDigest }: FlownHere): ShipCaution[] {
  const writes = own.datumAtSeconds !== null && own.atSeconds > own.datumAtSeconds;
  if (writes || jobDigest === null || ship.jobDigest === null || ship.jobDigest === jobDigest) return [];
  const name = ship.name.toUpperCase();
  return [{ words: `${name}’S JOB IS NOT YOURS: CALL ${name}`, isClose: false }];
}

/** Words for a ship by whose datum the timetable is flown sooner or later than by this ship's: told before anybody leaves a circle. */
function timedApart(ship: ShipSeen, own: Flight, now: LinkInstant): ShipCaution[] {
  // Where the screen asks for a choice of times, it says so there.
  const said = own.formation?.clockBroken === true || (ship.shipIndex === 0 && waitsForLeadsTime(own.formation));
  const later = said || ship.shipIndex === own.setup.shipIndex ? null : laterDatumSeconds(ship, own, now);
  if (later === null || Math.abs(later) <= DATUMS_APART_SECONDS) return [];
  const name = ship.name.toUpperCase();
  return [{ words: `${name}’S TIME IS ${formatShortTime(Math.abs(later))} ${later > 0 ? 'BEHIND' : 'AHEAD OF'} YOURS: CALL ${name}`, isClose: false }];
}

function movingFrom(mean: readonly number[]): ShipMoving {
  const read = (index: number): number => mean[index] ?? 0;
  return {
    eastMetres: read(STATE.east),
    northMetres: read(STATE.north),
    eastMetresPerSecond: read(STATE.airspeed) * Math.cos(read(STATE.direction)) + read(STATE.windEast),
    northMetresPerSecond: read(STATE.airspeed) * Math.sin(read(STATE.direction)) + read(STATE.windNorth),
    turnRateRadiansPerSecond: read(STATE.turnRate),
  };
}
