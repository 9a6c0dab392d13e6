import { FlownHeight, type HeightHands } from '../../tests/flight/flown-height.ts';
import { EarPilot, ORDINARY_EARS } from '../../tests/flight/ear-pilot.ts';
import { OrdinaryPilot } from '../../tests/flight/ordinary-pilot.ts';
import { placeOnEarth } from '../../tests/flight/place-on-earth.ts';
import { type FlightWorld, type Puff, type ShownCue, SimulatedFlight } from '../../tests/flight/simulated-flight.ts';

/**
 * The simulated pilot sits in the page: it takes the place of the device's receiver, and what it knows of the flight
 * is what the elements of the cue contract say. It imports nothing of the app.
 */
export interface PilotOrders {
  readonly world: Omit<FlightWorld, 'fixLosses'>;
  readonly site: { readonly latitudeDegrees: number; readonly longitudeDegrees: number; readonly elevationMetres: number };
  readonly layerHeightMetres: number;
  /** A loss of 30 s begins at the first reposition and the first stroke after these times; Infinity for none. */
  readonly lossAfterSeconds: { readonly reposition: number; readonly stroke: number };
  /** Fixes lost again and again: for so long, once in so long; null for never. */
  readonly lossesEvery: { readonly seconds: number; readonly everySeconds: number } | null;
  /** How the pilot changes height, and the height on the card; null for a pilot who keeps one height. */
  readonly height: (HeightHands & { readonly cardFeet: number }) | null;
  /** Who flies: an eye that obeys the screen at every glance (left out), an ear alone, or both as an ordinary pilot has them. */
  readonly pilot?: 'ear' | 'ordinary';
  /** How often the pilot glances at the screen. */
  readonly glanceSeconds: number;
  /** Whether every glance's true place is kept; a long flight has many. */
  readonly keepsTrack: boolean;
}

export interface PilotReport {
  readonly atSeconds: number;
  readonly trails: readonly (readonly Puff[])[];
  readonly phases: readonly { readonly atSeconds: number; readonly phase: string }[];
  readonly finished: boolean;
  /** How often a stroke was marked as held over a short loss. */
  readonly heldTicks: number;
  /** How often smoke ON was shown with the position 3 s old or unknown, and not marked as held, or 8 s old. */
  readonly wrongOns: number;
  /** The smoke of letters fixed to the ground, flown at the same times: each puff is carried off by the air after it. */
  readonly groundTrails: readonly (readonly Puff[])[];
  readonly windErrorKnots: number;
  readonly letters: readonly { readonly atSeconds: number; readonly letter: string; readonly windErrorKnots: number }[];
  /** Where the aircraft truly was in the air, at every glance. */
  readonly track: readonly TrackPoint[];
  /** How far the air had moved, through the flight and twenty minutes beyond. */
  readonly driftTrack: SimulatedFlight['driftTrack'];
  /** The last that was said of where the word is promised to stand; empty where it never was. */
  readonly hung: string;
  /** Each line that said where the word stands, as it came and went. */
  readonly standings: readonly { readonly atSeconds: number; readonly words: string }[];
  /** How long something was being said, by the contract's own lengths, and how often. */
  readonly spokenSeconds: number;
  readonly announcements: number;
  /** What the screen asked for, at every change: turns and headings. */
  readonly cueChanges: readonly { readonly atSeconds: number; readonly phase: string; readonly turn: string; readonly heading: number | null }[];
}

/** `done` once the screen says that this ship has written its strokes. */
export interface TrackPoint {
  readonly atSeconds: number;
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
  readonly heightFeet: number;
  readonly done: boolean;
}

declare global {
  interface Window {
    flightPilot: { begin(orders: PilotOrders): void; isFinished(): boolean; report(): PilotReport };
  }
}

const KNOTS_PER_METRE_PER_SECOND = 3600 / 1852;
const LOSS_SECONDS = 30;

const watchers = new Map<number, PositionCallback>();
let nextWatch = 1;
const geolocation: Geolocation = {
  watchPosition(success) {
    watchers.set(nextWatch, success);
    return nextWatch++;
  },
  getCurrentPosition(success) {
    const id = nextWatch++;
    watchers.set(id, (position) => {
      watchers.delete(id);
      success(position);
    });
  },
  clearWatch: (id) => void watchers.delete(id),
};
Object.defineProperty(navigator, 'geolocation', { value: geolocation, configurable: true });

const shown = (name: string): string => document.querySelector(`[data-cue="${name}"]`)?.getAttribute('data-value') ?? '';
const numberOf = (text: string): number | null => (text === '' ? null : Number(text));

function glance(): ShownCue {
  return {
    phase: shown('phase'),
    turn: shown('turn'),
    headingDegrees: numberOf(shown('heading')),
    bankDegrees: numberOf(shown('bank')),
    smoke: shown('smoke'),
  };
}

let flight: SimulatedFlight | null = null;
let ear: EarPilot | null = null;
let ordinary: OrdinaryPilot | null = null;

/** What the hands do: by the screen, by what was said, or by both. */
function handsNow(cue: ShownCue, of: SimulatedFlight, variationDegrees: number): ShownCue {
  const listener = ordinary?.ear ?? ear;
  const said = document.querySelector('[data-cue="said"]');
  listener?.hear(said?.getAttribute('data-value') ?? '', Number(said?.getAttribute('data-seconds') ?? 0), of.atSeconds);
  const compass = of.headingDegrees - variationDegrees;
  if (ordinary !== null) return ordinary.wants(cue, numberOf(shown('smoke-in')), of.atSeconds, compass);
  if (ear === null) return cue;
  return cue.phase === 'finished' ? { ...ear.wants(of.atSeconds, compass), phase: 'finished', smoke: 'off' } : ear.wants(of.atSeconds, compass);
}
let wrongOns = 0;
let heldTicks = 0;
const HELD_AT_MOST_SECONDS = 8;
let finished = false;
const phases: { atSeconds: number; phase: string }[] = [];
const letters: { atSeconds: number; letter: string; windErrorKnots: number }[] = [];
const groundTrails: Puff[][] = [];
let hung = '';
const standings: { atSeconds: number; words: string }[] = [];
const cueChanges: { atSeconds: number; phase: string; turn: string; heading: number | null }[] = [];
const AIR_AFTER_SECONDS = 1200;
const track: TrackPoint[] = [];

function windError(of: SimulatedFlight): number {
  const [from, knots] = shown('wind').split('/').map(Number);
  if (from === undefined || knots === undefined || Number.isNaN(knots)) return Infinity;
  const towards = ((from + 180) * Math.PI) / 180;
  const east = (knots / KNOTS_PER_METRE_PER_SECOND) * Math.sin(towards) - of.windEast;
  const north = (knots / KNOTS_PER_METRE_PER_SECOND) * Math.cos(towards) - of.windNorth;
  return Math.hypot(east, north) * KNOTS_PER_METRE_PER_SECOND;
}

window.flightPilot = {
  begin(orders) {
    const lossFrom = { reposition: Infinity, stroke: Infinity };
    const fixLosses = (smokeOn: boolean, atSeconds: number): boolean => {
      const kind = smokeOn ? 'stroke' : 'reposition';
      if (lossFrom[kind] === Infinity && atSeconds > orders.lossAfterSeconds[kind]) lossFrom[kind] = atSeconds + (smokeOn ? 5 : 0);
      if (
        orders.lossesEvery !== null &&
        atSeconds % orders.lossesEvery.everySeconds < orders.lossesEvery.seconds &&
        atSeconds > orders.lossesEvery.everySeconds
      )
        return true;
      return [lossFrom.reposition, lossFrom.stroke].some((from) => atSeconds >= from && atSeconds < from + LOSS_SECONDS);
    };
    const aircraft = new SimulatedFlight({ ...orders.world, fixLosses });
    flight = aircraft;
    if (orders.pilot === 'ear') ear = new EarPilot({ seed: orders.world.seed, ...ORDINARY_EARS });
    if (orders.pilot === 'ordinary') ordinary = new OrdinaryPilot(orders.world.seed);
    const height = orders.height === null ? null : new FlownHeight(orders.height.cardFeet, orders.height);
    let askedFeet = NaN;
    let darkSeconds = 0;
    setInterval(() => {
      if (finished) return;
      const arrived = aircraft.fly(orders.glanceSeconds);
      height?.fly(orders.glanceSeconds);
      for (const { eastMetres, northMetres, measuredAtSeconds } of arrived) {
        const { latitudeDegrees, longitudeDegrees } = placeOnEarth(eastMetres, northMetres, orders.layerHeightMetres, orders.site);
        const coords = {
          latitude: latitudeDegrees,
          longitude: longitudeDegrees,
          accuracy: 2.45 * orders.world.fixNoiseMetres,
          altitude: null,
          altitudeAccuracy: null,
          heading: null,
          speed: null,
        };
        const timestamp = Date.now() - (aircraft.atSeconds - measuredAtSeconds) * 1000;
        for (const watcher of watchers.values()) watcher({ coords, timestamp, toJSON: () => ({}) } as unknown as GeolocationPosition);
      }
      if (aircraft.smokeOn) {
        while (groundTrails.length < aircraft.trails.length) groundTrails.push([]);
        const { airEastMetres, airNorthMetres, atSeconds } = aircraft.trails.at(-1)!.at(-1) ?? { airEastMetres: 0, airNorthMetres: 0, atSeconds: 0 };
        groundTrails
          .at(-1)!
          .push({ atSeconds, airEastMetres: airEastMetres - aircraft.driftEastMetres, airNorthMetres: airNorthMetres - aircraft.driftNorthMetres });
      }
      const cue = glance();
      aircraft.show(handsNow(cue, aircraft, orders.world.variationDegrees));
      if (height !== null && orders.height !== null) {
        const feet = numberOf(shown('height'));
        darkSeconds = feet === null ? darkSeconds + orders.glanceSeconds : 0;
        // A screen that shows no height for 3 s sends the pilot to the one on the card.
        const wanted = feet ?? (darkSeconds > 3 ? orders.height.cardFeet : askedFeet);
        if (Number.isFinite(wanted) && wanted !== askedFeet) height.ask(wanted);
        askedFeet = wanted;
      }
      if (orders.keepsTrack)
        track.push({
          atSeconds: aircraft.atSeconds,
          airEastMetres: aircraft.airEastMetres,
          airNorthMetres: aircraft.airNorthMetres,
          heightFeet: height?.heightFeet ?? 0,
          done: cue.phase === 'finished',
        });
      const age = numberOf(shown('fix-age'));
      if (cue.smoke === 'on' && (age === null || age > (shown('held') === 'yes' ? HELD_AT_MOST_SECONDS : 3))) wrongOns += 1;
      if (shown('held') === 'yes') heldTicks += 1;
      if (phases.at(-1)?.phase !== cue.phase) phases.push({ atSeconds: aircraft.atSeconds, phase: cue.phase });
      const letter = shown('letter');
      if (cue.phase === 'stroke' && letters.at(-1)?.letter !== letter)
        letters.push({ atSeconds: aircraft.atSeconds, letter, windErrorKnots: windError(aircraft) });
      const standing = document.querySelector('.write [data-figure="hung"]');
      const words = standing?.textContent ?? '';
      if (standings.at(-1)?.words !== words) standings.push({ atSeconds: aircraft.atSeconds, words });
      const promised = standing?.getAttribute('data-value') ?? '';
      if (promised !== '') hung = promised;
      const last = cueChanges.at(-1);
      if (last?.turn !== cue.turn || last.heading !== cue.headingDegrees || last.phase !== cue.phase)
        cueChanges.push({ atSeconds: aircraft.atSeconds, phase: cue.phase, turn: cue.turn, heading: cue.headingDegrees });
      if (cue.phase === 'finished' && !aircraft.smokeOn) finished = true;
    }, orders.glanceSeconds * 1000);
  },
  isFinished: () => finished,
  report() {
    if (flight === null) throw new Error('the flight has not begun');
    const { atSeconds } = flight;
    const windErrorKnots = windError(flight);
    // The air goes on, for whoever looks at the smoke afterwards.
    if (finished) flight.fly(AIR_AFTER_SECONDS);
    const { trails, driftTrack } = flight;
    const listener = ordinary?.ear ?? ear;
    const spokenSeconds = listener?.spokenSeconds ?? 0;
    const announcements = listener?.announcements ?? 0;
    return {
      spokenSeconds,
      announcements,
      atSeconds,
      trails,
      phases,
      finished,
      wrongOns,
      heldTicks,
      groundTrails,
      windErrorKnots,
      letters,
      track,
      driftTrack,
      hung,
      standings,
      cueChanges,
    };
  },
};
