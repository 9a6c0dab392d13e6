import { geodeticFromSite } from '../core/earth/geodetic-from-site.ts';
import { type SitePoint } from '../core/earth/site-frame.ts';
import { windFromVector } from '../core/earth/wind-vector.ts';
import type { LinkFact, LinkTouch, ShipState } from '../core/wire/link-messages.ts';
import { figuresFromWind } from '../core/wire/hanging-figures.ts';
import { LINK_POINTS_LIMIT, LINK_TOUCHES } from '../core/wire/link-schemas.ts';
import type { Cues } from '../core/guidance/cues.ts';
import type { Flight, FlyingState, GuidanceState } from '../core/guidance/guidance-state.ts';
import { fixAgeSeconds, isTrusted, predictedAt } from '../core/guidance/present.ts';
import { STATE } from '../core/tracking/estimate.ts';
import { bearingFromDirection, degreesFromRadians } from '../core/units/angle.ts';
import { metresFromFeet } from '../core/units/quantity.ts';

/** What a ship tells of itself over the link, without what the session adds. */
export type ToldState = Omit<ShipState, 'v' | 'device' | 'boot' | 'sentAtMilliseconds' | 'eventCount'>;

/** Turns a flight, looked at a few times a second, into what is worth telling. */
export interface ShipTeller {
  /** The flight now: facts since the last look, oldest first, and the ship's place. */
  look(state: GuidanceState, cues: Cues, nowMilliseconds: number): { readonly facts: readonly LinkFact[]; readonly told: ToldState | null };
  /** A touch of the pilot's. */
  touched(touch: string): LinkFact | null;
  /** What is left to tell when the flight ends. */
  finish(): readonly LinkFact[];
}

interface LaidPoint {
  readonly atMilliseconds: number;
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
}

/** Points of laid smoke are taken this far apart in time, and told at the latest after so long. */
const POINT_MILLISECONDS = 1000;
const PIECE_MILLISECONDS = 20_000;

/** A teller of one flight; the flight itself never waits for it and never hears of it. */
export function createShipTeller(flightKind: 'flight' | 'rehearsal' | 'replay'): ShipTeller {
  let begun = false;
  let datumTold: number | null = null;
  let hungTold: Flight['hanging'] = null;
  let phase: Cues['phase'] | null = null;
  let smoking = false;
  let letter: { readonly letterIndex: number | null; readonly character: string | null } = { letterIndex: null, character: null };
  let piece: LaidPoint[] = [];

  function laidPiece(): LinkFact[] {
    const first = piece[0];
    const last = piece.at(-1);
    if (first === undefined || last === undefined || piece.length < 2) return [];
    const told: LinkFact = {
      kind: 'laid',
      ...letter,
      fromMilliseconds: Math.round(first.atMilliseconds),
      secondsAfter: piece.map(({ atMilliseconds }) => rounded((atMilliseconds - first.atMilliseconds) / 1000, 2)),
      latitudesDegrees: piece.map(({ latitudeDegrees }) => latitudeDegrees),
      longitudesDegrees: piece.map(({ longitudeDegrees }) => longitudeDegrees),
    };
    // The next piece begins where this one ends.
    piece = [last];
    return [told];
  }

  return {
    look(state, cues, nowMilliseconds) {
      const facts: LinkFact[] = [];
      if (state.phase === 'idle') return { facts, told: null };
      const { flight } = state;
      if (!begun) {
        begun = true;
        facts.push({ kind: 'began', flightKind, shipIndex: flight.setup.shipIndex, shipName: flight.setup.shipName });
      }
      if (flight.datumAtSeconds !== null) {
        const datumMilliseconds = Math.round(nowMilliseconds + (flight.datumAtSeconds - flight.atSeconds) * 1000);
        // The flight counts in its own seconds; a difference of the two clocks' rounding is no news.
        if (datumTold === null || Math.abs(datumMilliseconds - datumTold) > 500) {
          datumTold = datumMilliseconds;
          facts.push({ kind: 'datum', datumMilliseconds });
        }
      }
      if (flight.hanging !== hungTold && flight.hanging !== null) {
        hungTold = flight.hanging;
        facts.push(hungFact(flight.hanging));
      }
      if (cues.phase !== phase) {
        phase = cues.phase;
        facts.push({ kind: 'phase', phase });
      }
      const place = placeOf(state);
      const lays = isLaying(state);
      if (lays && !smoking) {
        letter = letterOf(state);
        piece = [];
        facts.push({ kind: 'smoke', smoke: 'on', ...letter });
      }
      if (place !== null && (lays || smoking) && isDue(piece.at(-1), nowMilliseconds, !lays)) piece.push({ atMilliseconds: nowMilliseconds, ...place });
      if (!lays && smoking) {
        facts.push(...laidPiece(), { kind: 'smoke', smoke: 'off', ...letter });
        piece = [];
      } else if (lays && (piece.length >= LINK_POINTS_LIMIT || nowMilliseconds - (piece[0]?.atMilliseconds ?? nowMilliseconds) >= PIECE_MILLISECONDS)) {
        facts.push(...laidPiece());
      }
      smoking = lays;
      return { facts, told: { ...toldFrom(state, cues, place, lays), formation: formationOf(flight, flightKind) } };
    },
    touched(touch) {
      const known = LINK_TOUCHES.find((each): each is LinkTouch => each === touch);
      return known === undefined ? null : { kind: 'touched', touch: known };
    },
    finish: () => [...laidPiece(), ...(smoking ? [{ kind: 'smoke', smoke: 'off', ...letter } as const] : []), { kind: 'ended' }],
  };
}

/** Where the text hangs; moved by hand it is told with the wind it was hung for. */
function hungFact({ kind, wind, movedEastMetres, movedNorthMetres }: NonNullable<Flight['hanging']>): LinkFact {
  const from = windFromVector(wind);
  const briefed = kind === 'as-briefed';
  return {
    kind: 'hung',
    windFromDegreesTrue: briefed ? null : rounded(degreesFromRadians(from.fromRadians), 1) % 360,
    windSpeedMetresPerSecond: briefed ? null : rounded(from.speedMetresPerSecond, 2),
    movedEastMetres: rounded(movedEastMetres, 0),
    movedNorthMetres: rounded(movedNorthMetres, 0),
  };
}

function isDue(last: LaidPoint | undefined, nowMilliseconds: number, final: boolean): boolean {
  if (last === undefined) return true;
  return nowMilliseconds - last.atMilliseconds >= (final ? 1 : POINT_MILLISECONDS);
}

/** Smoke that is in the air: by the switch where the pilot marks it, else along the stroke that is cued. */
function isLaying(state: FlyingState): boolean {
  const { smokeMarked } = state.flight;
  if (smokeMarked !== null) return smokeMarked === 'on';
  return state.phase === 'onStroke' && state.alongMetres >= 0;
}

function letterOf(state: FlyingState): { readonly letterIndex: number | null; readonly character: string | null } {
  const stroke = state.phase === 'finished' ? undefined : state.flight.setup.strokes[state.strokeIndex];
  return { letterIndex: stroke?.letterIndex ?? null, character: stroke?.character ?? null };
}

/** Where the ship is believed to be, to about a tenth of a metre; null when that is not trusted. */
function placeOf({ flight }: FlyingState): { readonly latitudeDegrees: number; readonly longitudeDegrees: number } | null {
  if (!isTrusted(flight)) return null;
  const mean = predictedAt(flight, flight.atSeconds)?.mean;
  const [eastMetres, northMetres] = [mean?.[STATE.east], mean?.[STATE.north]];
  if (eastMetres === undefined || northMetres === undefined) return null;
  const point: SitePoint = { eastMetres, northMetres };
  const { latitudeDegrees, longitudeDegrees } = geodeticFromSite(point, flight.setup.layerHeightMetres, flight.setup.site);
  return { latitudeDegrees: rounded(latitudeDegrees, 6), longitudeDegrees: rounded(longitudeDegrees, 6) };
}

/** What the other ships must know to hang the text alike; null of a ship alone. */
function formationOf(
  { formation, hanging, datumAtSeconds, atSeconds, movedEastMetres, movedNorthMetres }: Flight,
  flightKind: NonNullable<ToldState['formation']>['flightKind'],
): ToldState['formation'] {
  if (formation === null) return null;
  return {
    flightKind,
    // A clock that was set takes its datum with it.
    datumInSeconds: datumAtSeconds === null || formation.clockBroken ? null : rounded(datumAtSeconds - atSeconds, 1),
    hungFor: hanging === null || hanging.kind === 'as-briefed' ? null : figuresFromWind(hanging.wind),
    hungBy: formation.hungBy,
    movedEastMetres: rounded(movedEastMetres, 0),
    movedNorthMetres: rounded(movedNorthMetres, 0),
  };
}

function toldFrom(state: FlyingState, cues: Cues, place: ReturnType<typeof placeOf>, lays: boolean): Omit<ToldState, 'formation'> {
  const { flight } = state;
  const estimate = place === null ? null : predictedAt(flight, flight.atSeconds);
  const read = (index: number): number => estimate?.mean[index] ?? 0;
  const wind = { eastMetresPerSecond: read(STATE.windEast), northMetresPerSecond: read(STATE.windNorth) };
  const east = read(STATE.airspeed) * Math.cos(read(STATE.direction)) + wind.eastMetresPerSecond;
  const north = read(STATE.airspeed) * Math.sin(read(STATE.direction)) + wind.northMetresPerSecond;
  const from = windFromVector(wind);
  return {
    shipIndex: flight.setup.shipIndex,
    fix:
      place === null
        ? null
        : {
            ageSeconds: rounded(Math.max(0, fixAgeSeconds(flight) ?? 0), 2),
            ...place,
            // The height it is told to hold, where it is told one.
            altitudeMetres: rounded(cues.heightFeet === null ? flight.setup.layerHeightMetres : metresFromFeet(cues.heightFeet), 0),
            trackDegreesTrue: rounded(degreesFromRadians(bearingFromDirection(Math.atan2(north, east))), 1) % 360,
            groundSpeedMetresPerSecond: rounded(Math.hypot(east, north), 1),
          },
    phase: cues.phase,
    smoke: cues.phase === 'no-cue' && flight.smokeMarked === null ? null : lays ? 'on' : 'off',
    strokeNumber: cues.strokeNumber,
    strokeCount: cues.strokeCount,
    character: cues.character,
    windFromDegreesTrue: estimate === null ? null : rounded(degreesFromRadians(from.fromRadians), 0) % 360,
    windSpeedMetresPerSecond: estimate === null ? null : rounded(from.speedMetresPerSecond, 1),
  };
}

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) + 0;
}
