import { cuesFrom } from '../../src/core/guidance/cues-from.ts';
import type { Cues } from '../../src/core/guidance/cues.ts';
import type { FlightEvent, FlightFact } from '../../src/core/guidance/flight-event.ts';
import { flightSetupFromJob } from '../../src/core/guidance/flight-setup-from-job.ts';
import type { FlightSetup } from '../../src/core/guidance/flight-setup.ts';
import { type GuidanceState, initialState } from '../../src/core/guidance/guidance-state.ts';
import { viewFrom } from '../../src/core/guidance/flight-view-from.ts';
import { reduce } from '../../src/core/guidance/reduce.ts';
import { DESK_START_MILLISECONDS } from './fly-at-desk.ts';
import { FlownHeight } from './flown-height.ts';
import { type Approach, nearestAtOneHeight, type TruePlace } from './judge-separation.ts';
import { foundWind } from '../../src/core/guidance/hanging/found-wind.ts';
import { figuresFromWind, windFromFigures } from '../../src/core/wire/hanging-figures.ts';
import { timeOfLead } from '../../src/app/link/time-of-lead.ts';
import { leadTimeWords } from '../../src/ui/write/lead-time-words.ts';
import { formationHungWords } from '../../src/ui/write/formation-hung-words.ts';
import { placeOnEarth } from './place-on-earth.ts';
import type { LateHack, ShipStart, Sortie, SortieHangs } from './ships-from-anywhere.ts';
import { FLOWN_HERE, instantOf, leadOnLink } from './lead-on-link.ts';
import { HeardCues } from './heard-cues.ts';
import { ordinaryHands, OrdinaryPilot } from './ordinary-pilot.ts';
import { type ShownCue, SimulatedFlight } from './simulated-flight.ts';
import { trueVariationDegrees } from './true-variation.ts';

/** What the ships of a sortie truly did. */
export interface SortieReport {
  readonly sortie: Sortie;
  readonly nearest: Approach | null;
  readonly tracks: readonly (readonly TruePlace[])[];
  /** Every stroke of every ship written. */
  readonly whole: boolean;
  /** From the datum last called to the last smoke, over what was planned. */
  readonly durationShare: number;
  /** How often a later datum was called. */
  readonly hacks: number;
  /** Each ship's smoke, in the air since the start, and how the air moved. */
  readonly trails: readonly SimulatedFlight['trails'][];
  readonly driftTrack: SimulatedFlight['driftTrack'];
  /** Figures that a ship's page did not take, with its reason. */
  readonly refusedFigures: readonly string[];
  /** Since the start. */
  readonly datumSeconds: number;
  /** Where each ship's air-mass frame stood at the datum. */
  readonly driftAtDatum: { readonly eastMetres: number; readonly northMetres: number };
  readonly states: readonly GuidanceState[];
  /** What each ship's page logged. */
  readonly events: readonly (readonly FlightEvent[])[];
  readonly endSeconds: number;
  /** The ways the guidance's phases and reasons went, for whoever looks into one flight. */
  readonly stories: readonly (readonly string[])[];
}

/** Looks on at every ship's every tick. */
export type Watch = (shipIndex: number, sinceDatumSeconds: number, state: GuidanceState, simulation: SimulatedFlight) => void;

const TICK_SECONDS = 0.2;
const LONGEST_AFTER_DATUM_SECONDS = 3600;
/** A page gone dark for so long sends the pilot to the height on the card. */
const DARK_SECONDS = 3;
const FEET_PER_METRE = 1 / 0.3048;
/** From so long before the datum a ship that will be late says so, and the lead calls a later one; until so long before it. */
const CALL_FROM_SECONDS = 75;
const CALL_TO_SECONDS = 20;
const LATER_BY_SECONDS = 30;
/** A datum called anew is so far ahead at least. */
const NEW_DATUM_SECONDS = 330;
const MOST_HACKS = 4;
/** Less than this late nobody asks for another datum. */
const LATE_SAID_SECONDS = 8;
/** One ship after another has the figures in. */
const TYPED_AFTER_SECONDS = 6;
const HEARD_BY_LINK_SECONDS = 1;
const REFUSED_AFTER_SECONDS = 5;
const LEAD_FOLLOWS_SECONDS = 10;

interface Flown {
  readonly start: ShipStart;
  /** Its positions come so much later than others', and its clock is as much behind. */
  readonly lateSeconds: number;
  readonly setup: FlightSetup;
  readonly simulation: SimulatedFlight;
  /** Null for an obedient eye. */
  readonly pilot: { readonly hands: OrdinaryPilot; readonly heard: HeardCues } | null;
  readonly height: FlownHeight;
  readonly cardHeightFeet: number | null;
  readonly track: TruePlace[];
  readonly story: string[];
  readonly events: FlightEvent[];
  state: GuidanceState;
  cues: Cues;
  darkSinceSeconds: number | null;
  dead: boolean;
  touched: boolean;
  typed: boolean;
  briefedAgain: boolean;
  released: boolean;
  lastAskedFeet: number | null;
  apartSinceSeconds: number | null;
}

/** All ships of a sortie at once, each by its own cues, clock and receiver in the same air, with nothing between them but the radio calls of the brief. */
export function flySortie(sortie: Sortie, watch?: Watch): SortieReport {
  let datumSeconds = sortie.datumSeconds;
  let driftAtDatum = { eastMetres: 0, northMetres: 0 };
  let hacks = 0;
  let said: { readonly figures: string; readonly atSeconds: number } | null = null;
  let foundAtSeconds: number | null = null;
  const refusedFigures: string[] = [];
  let atSeconds = 0;
  const ships = sortie.ships.map((_, index) => shipOf(sortie, index));
  const clockOff = (ship: Flown, seconds: number): number => {
    const { clockSet } = sortie;
    const set = clockSet !== undefined && ships[clockSet.shipIndex] === ship && seconds >= sortie.datumSeconds - clockSet.beforeDatumSeconds;
    return (set ? clockSet.bySeconds : 0) - ship.lateSeconds;
  };
  // A hack is pressed on the call, by whatever the clock shows; a late one is the first.
  const datumWall = (ship: Flown): number => DESK_START_MILLISECONDS + (datumSeconds + ship.start.clockErrorSeconds + clockOff(ship, atSeconds)) * 1000;
  const take = (ship: Flown, fact: FlightFact): void => {
    const event: FlightEvent = { ...fact, atSeconds, wallMilliseconds: DESK_START_MILLISECONDS + (atSeconds + clockOff(ship, atSeconds)) * 1000 };
    ship.events.push(event);
    ship.state = reduce(ship.state, event);
    ship.cues = cuesFrom(ship.state);
  };
  /** The lead hangs the word and says for what; the others hear it by the link, or type it. */
  const hangBy = ({ by, afterSeconds, heardAfterSeconds, refusedBy }: SortieHangs): void => {
    const [lead] = ships;
    if (said === null) {
      const wind = foundWind(lead!.state);
      if (wind === null) return;
      foundAtSeconds ??= atSeconds;
      const may = afterSeconds === undefined ? ships.every(({ state }) => isAtOwnHeight(state)) : atSeconds >= foundAtSeconds + afterSeconds;
      // The lead touches what its screen offers.
      if (!may || formationHungWords(lead!.state, figuresFromWind(wind))?.touch?.label !== 'Hang it') return;
      said = { figures: figuresFromWind(wind), atSeconds };
    }
    for (const [index, ship] of ships.entries()) {
      const after = by === 'link' ? (index === 0 ? 0 : HEARD_BY_LINK_SECONDS) : TYPED_AFTER_SECONDS * (index + 1);
      const heardAtSeconds = said.atSeconds + (heardAfterSeconds?.[index] ?? after);
      if (!ship.typed && atSeconds >= heardAtSeconds) {
        const wrong = by !== 'link' && by.mistypedBy === index && refusedFigures.length === 0;
        const heard = windFromFigures(wrong ? said.figures.replace(/\d/, (figure) => String((Number(figure) + 1) % 10)) : said.figures);
        if (heard.ok) {
          ship.typed = true;
          take(ship, { kind: 'hangingGiven', wind: heard.wind, ...(by === 'link' && index > 0 ? { by } : {}) });
        } else refusedFigures.push(heard.reason);
      }
      // Told to hold and hang it then, the pilot does.
      if (index > 0 && formationHungWords(ship.state, '')?.more.includes('HOLD') === true) {
        take(ship, { kind: 'held' });
        take(ship, { kind: 'holdReleased' });
      }
      if (refusedBy === undefined || ship.briefedAgain) continue;
      const again = heardAtSeconds + REFUSED_AFTER_SECONDS + (index === refusedBy ? 0 : LEAD_FOLLOWS_SECONDS + (heardAfterSeconds?.[index] ?? after));
      if (atSeconds < again) continue;
      ship.briefedAgain = true;
      take(ship, { kind: 'hangingGiven', wind: null, ...(index === 0 ? {} : { by: index === refusedBy ? ('refusal' as const) : ('link' as const) }) });
      if (index === refusedBy) continue;
      // The lead's word also reaches the ship that refused.
      if (index === 0) take(ships[refusedBy]!, { kind: 'hangingGiven', wind: null, by: 'link' });
    }
  };
  /** What the link brings of the lead's datum, once a second, and what the pilot does about it. */
  const heardOfLead = (index: number, ship: Flown, { takenAfterSeconds }: NonNullable<LateHack['linked']>): void => {
    if (index === 0 || ship.dead || Math.round(atSeconds / TICK_SECONDS) % Math.round(1 / TICK_SECONDS) !== 0) return;
    const lead = ships[0]!;
    const seen = lead.dead ? [] : [leadOnLink(lead.state, atSeconds - HEARD_BY_LINK_SECONDS, HEARD_BY_LINK_SECONDS)];
    const fact = timeOfLead(seen, ship.state, FLOWN_HERE, instantOf(atSeconds));
    if (fact !== null) take(ship, fact);
    const offered = leadTimeWords(ship.state);
    ship.apartSinceSeconds = offered === null ? null : (ship.apartSinceSeconds ?? atSeconds);
    if (offered === null || atSeconds - ship.apartSinceSeconds! < takenAfterSeconds) return;
    take(ship, offered.touches[0]!.fact);
  };
  for (const ship of ships) take(ship, { kind: 'flightStarted', setup: ship.setup });
  const over = (): boolean => ships.every(({ state, simulation }) => state.phase === 'finished' && !simulation.smokeOn);
  while (!over() && atSeconds < datumSeconds + LONGEST_AFTER_DATUM_SECONDS) {
    atSeconds = Math.round((atSeconds + TICK_SECONDS) * 1000) / 1000;
    for (const [index, ship] of ships.entries()) {
      const fault = sortie.fault?.shipIndex === index ? sortie.fault.fault : null;
      const sinceDatum = atSeconds - datumSeconds;
      const fixes = ship.simulation.fly(TICK_SECONDS);
      ship.height.fly(TICK_SECONDS);
      if (Math.abs(atSeconds - datumSeconds) < TICK_SECONDS / 2) {
        driftAtDatum = { eastMetres: ship.simulation.driftEastMetres, northMetres: ship.simulation.driftNorthMetres };
      }
      const dead = fault?.kind === 'killed' && sinceDatum >= fault.atSeconds && sinceDatum < fault.atSeconds + fault.seconds;
      if (!dead) {
        if (ship.dead) take(ship, { kind: 'flightResumed' });
        for (const fix of fixes) {
          take(ship, {
            kind: 'fixReceived',
            fix: {
              ...placeOnEarth(fix.eastMetres, fix.northMetres, ship.setup.layerHeightMetres, ship.setup.site),
              accuracyMetres: 7.35,
              altitudeMetres: null,
              groundSpeedMetresPerSecond: null,
              trackDegrees: null,
              stampMilliseconds: stampOf(fix.measuredAtSeconds, sortie, clockOff(ship, fix.measuredAtSeconds)),
            },
          });
        }
        take(ship, { kind: 'clockAdvanced' });
        // Asked whether the place is right, or it was the hand, who has good positions says so.
        if (ship.lateSeconds === 0 && viewFrom(ship.state)?.placeDoubted === true) take(ship, { kind: 'holdReleased' });
        // Asked, the pilot says what was done.
        if ((viewFrom(ship.state)?.askedSeconds ?? null) !== null) take(ship, { kind: 'clockAnswered', slept: false });
        if (fault !== null && !ship.touched) {
          if (fault.kind === 'dropped-out' && sinceDatum >= fault.atSeconds) take(ship, { kind: 'knockedOff' });
          else if (fault.kind === 'held' && sinceDatum >= fault.atSeconds) take(ship, { kind: 'held' });
          else if (fault.kind === 'redo' && sinceDatum >= fault.atSeconds && ship.cues.phase !== 'finished') take(ship, { kind: 'strokeRedone' });
          ship.touched = ('atSeconds' in fault && sinceDatum >= fault.atSeconds) || ship.touched;
        }
        if (fault?.kind === 'held' && ship.touched && !ship.released && sinceDatum >= fault.atSeconds + fault.seconds) {
          ship.released = true;
          take(ship, { kind: 'holdReleased' });
        }
      }
      ship.dead = dead;
      if (sortie.lateHack?.linked != null) heardOfLead(index, ship, sortie.lateHack.linked);
      watch?.(index, atSeconds - datumSeconds, ship.state, ship.simulation);
      look(ship, fault !== null && (dead || inattentive(ship, fault, atSeconds, sinceDatum)), dead, atSeconds);
      if (ship.simulation.trails.length >= 0 && fixes.length + ship.track.length > 0) {
        ship.track.push({
          atSeconds,
          eastMetres: ship.simulation.airEastMetres + ship.simulation.driftEastMetres,
          northMetres: ship.simulation.airNorthMetres + ship.simulation.driftNorthMetres,
          heightFeet: ship.height.heightFeet,
        });
      }
    }
    if (sortie.hangs !== undefined) hangBy(sortie.hangs);
    if (hacks < MOST_HACKS && atSeconds >= datumSeconds - CALL_FROM_SECONDS && atSeconds <= datumSeconds - CALL_TO_SECONDS) {
      // Who is out or has no screen says nothing; lead calls for those who will be late.
      const late = Math.max(...ships.map(({ cues, dead }) => (dead || cues.phase === 'finished' ? 0 : (cues.lateSeconds ?? 0))));
      if (late > LATE_SAID_SECONDS) {
        hacks += 1;
        datumSeconds = Math.ceil(Math.max(datumSeconds + late, atSeconds + NEW_DATUM_SECONDS) / LATER_BY_SECONDS) * LATER_BY_SECONDS;
        for (const ship of ships) if (!ship.dead) take(ship, { kind: 'datumTimed', datumWallMilliseconds: datumWall(ship) });
      }
    }
  }
  const lastOff = Math.max(...ships.map(({ simulation }) => simulation.switchings.at(-1)?.atSeconds ?? -Infinity));
  return {
    sortie,
    nearest: nearestAtOneHeight(
      ships.map(({ track }) => track),
      atSeconds,
    ),
    tracks: ships.map(({ track }) => track),
    whole: ships.every(({ state }) => state.phase === 'finished' && state.flight.progress.every(({ status }) => status === 'flown')),
    durationShare: (lastOff - datumSeconds) / sortie.plan.durationSeconds,
    hacks,
    trails: ships.map(({ simulation }) => simulation.trails),
    driftTrack: ships[0]!.simulation.driftTrack,
    refusedFigures,
    datumSeconds,
    driftAtDatum,
    states: ships.map(({ state }) => state),
    events: ships.map(({ events }) => events),
    endSeconds: atSeconds,
    stories: ships.map(({ story }) => story),
  };
}

function shipOf(sortie: Sortie, shipIndex: number): Flown {
  const start = sortie.ships[shipIndex]!;
  const pressedLateSeconds = sortie.lateHack?.shipIndex === shipIndex ? sortie.lateHack.seconds : 0;
  const datum = {
    kind: 'at-time',
    wallMilliseconds: DESK_START_MILLISECONDS + (sortie.datumSeconds + start.clockErrorSeconds + pressedLateSeconds) * 1000,
  } as const;
  const made = flightSetupFromJob(sortie.job, sortie.plan, shipIndex, datum, DESK_START_MILLISECONDS);
  if (!made.ok) throw new Error(made.reason);
  const { setup } = made;
  const { fault } = sortie.fault?.shipIndex === shipIndex ? sortie.fault : { fault: null };
  const cardHeightFeet = cardHeight(setup);
  const late = sortie.receivers?.hiddenLate ?? null;
  const lateSeconds = late?.shipIndex === shipIndex ? late.seconds : 0;
  const pilotSeed = sortie.seed * 10 + shipIndex;
  const hands = sortie.ordinaryPilots === true ? new OrdinaryPilot(pilotSeed) : null;
  const ship: Flown = {
    start,
    lateSeconds,
    setup,
    cardHeightFeet,
    pilot: hands === null ? null : { hands, heard: new HeardCues(hands.ear) },
    simulation: new SimulatedFlight({
      seed: pilotSeed,
      windSeed: sortie.seed,
      windEastMetresPerSecond: sortie.windEastMetresPerSecond,
      windNorthMetresPerSecond: sortie.windNorthMetresPerSecond,
      windWanderSigma: 0.77,
      airspeedMetresPerSecond: setup.trueAirspeedMetresPerSecond * start.airspeedShare,
      airspeedWander: 0.02,
      reactionSeconds: start.reactionSeconds,
      rollRateDegreesPerSecond: start.rollRateDegreesPerSecond,
      valveOnSeconds: setup.valveOnSeconds,
      valveOffSeconds: setup.valveOffSeconds,
      fixIntervalSeconds: 1,
      fixNoiseMetres: 3,
      fixLatencySeconds: 0.7 + lateSeconds,
      fixLosses: (_, atSeconds) => {
        if (fault?.kind !== 'blind') return false;
        const since = atSeconds - sortie.datumSeconds - fault.atSeconds;
        return since >= 0 && since < fault.seconds;
      },
      startEastMetres: start.eastMetres,
      startNorthMetres: start.northMetres,
      startHeadingDegrees: start.headingDegrees,
      variationDegrees: variationOf(setup),
      ...(hands === null
        ? {}
        : ordinaryHands(pilotSeed, {
            airspeedMetresPerSecond: setup.trueAirspeedMetresPerSecond,
            valveOnSeconds: setup.valveOnSeconds,
            valveOffSeconds: setup.valveOffSeconds,
          })),
    }),
    // A ship comes at the height on its card.
    height: new FlownHeight(cardHeightFeet ?? setup.layerHeightMetres * FEET_PER_METRE, start),
    track: [],
    story: [],
    events: [],
    state: initialState,
    cues: cuesFrom(initialState),
    darkSinceSeconds: null,
    dead: false,
    touched: false,
    typed: false,
    briefedAgain: false,
    released: false,
    lastAskedFeet: null,
    apartSinceSeconds: null,
  };
  return ship;
}

const variationOf = ({ site, layerHeightMetres }: FlightSetup): number => trueVariationDegrees(site, layerHeightMetres, DESK_START_MILLISECONDS);

/** What a receiver writes beside its place, by satellite time or by the device's clock. */
function stampOf(measuredAtSeconds: number, { receivers }: Sortie, clockOffSeconds: number): number | null {
  if (receivers === undefined) return null;
  return DESK_START_MILLISECONDS + (measuredAtSeconds + (receivers.stamps === 'device' ? clockOffSeconds : 0)) * 1000;
}

function isAtOwnHeight(state: GuidanceState): boolean {
  return state.phase === 'repositioning' && state.flight.formation !== null && state.flight.formation.toLayerSinceSeconds === null;
}

/** The height a ship's card names for itself, off the layer. */
function cardHeight(setup: FlightSetup): number | null {
  const { formation } = setup as { readonly formation?: { readonly ownHeightMetres: number } };
  return formation === undefined ? null : formation.ownHeightMetres * FEET_PER_METRE;
}

/** Whether the pilot's mind is elsewhere: flying circles where the ship is. */
function inattentive(ship: Flown, fault: NonNullable<Sortie['fault']>['fault'], atSeconds: number, sinceDatum: number): boolean {
  if (fault.kind === 'arrives-late') return atSeconds < fault.seconds;
  if (fault.kind !== 'circles-on') return false;
  const leaving = ship.setup.waitingCircle?.leaveSeconds ?? Infinity;
  return sinceDatum > leaving - 3 && sinceDatum < leaving + fault.seconds;
}

function look(ship: Flown, away: boolean, dead: boolean, atSeconds: number): void {
  const { cues, simulation, height } = ship;
  const told = dead ? 'dead' : `${cues.phase}: ${cues.because} ${cues.heightFeet ?? ''}`;
  if (ship.story.at(-1)?.replace(/^\S+ /, '') !== told) ship.story.push(`${atSeconds.toFixed(1)} ${told}`);
  if (away && !dead) {
    simulation.show({ ...shownFrom(cues), turn: 'left', headingDegrees: (simulation.headingDegrees + 200) % 360, bankDegrees: 40, smoke: 'off' });
    return;
  }
  const shown: ShownCue = dead ? { phase: 'no-cue', turn: '', headingDegrees: null, bankDegrees: null, smoke: 'off' } : shownFrom(cues);
  simulation.show(ship.pilot === null ? shown : ordinarilySeen(ship, ship.pilot, shown, atSeconds));
  const dark = dead || (cues.phase === 'no-cue' && cues.heightFeet === null);
  ship.darkSinceSeconds = dark ? (ship.darkSinceSeconds ?? atSeconds) : null;
  const darkLong = ship.darkSinceSeconds !== null && atSeconds - ship.darkSinceSeconds > DARK_SECONDS;
  const feet = darkLong ? ship.cardHeightFeet : dead ? null : cues.heightFeet;
  if (feet !== null && feet !== ship.lastAskedFeet) {
    height.ask(feet);
    ship.lastAskedFeet = feet;
  }
}

/** What an ordinary pilot's hands do, who hears what the app says of the cues and sees what is shown when looking. */
function ordinarilySeen({ cues, simulation, setup }: Flown, { hands, heard }: NonNullable<Flown['pilot']>, shown: ShownCue, atSeconds: number): ShownCue {
  heard.sound(cues, atSeconds);
  return hands.wants(shown, cues.smokeInSeconds, atSeconds, simulation.headingDegrees - variationOf(setup));
}

function shownFrom(cues: Cues): ShownCue {
  return {
    phase: cues.phase,
    turn: cues.turn ?? '',
    headingDegrees: cues.headingMagneticDegrees,
    bankDegrees: cues.bankDegrees,
    smoke: cues.smoke ?? '',
  };
}
