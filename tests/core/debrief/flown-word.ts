import { debriefShip, type ShipDebrief } from '../../../src/core/debrief/ship-debrief.ts';
import { createReplay, type Replay } from '../../../src/core/debrief/replay.ts';
import { shipLog, type ShipLog } from '../../../src/core/debrief/ship-log.ts';
import type { SeenSmoke } from '../../../src/core/debrief/smoke-intervals.ts';
import type { Cues } from '../../../src/core/guidance/cues.ts';
import { cuesFrom } from '../../../src/core/guidance/cues-from.ts';
import { geodeticFromSite } from '../../../src/core/earth/geodetic-from-site.ts';
import type { FlightEvent, FlightFact } from '../../../src/core/guidance/flight-event.ts';
import type { FlightSetup } from '../../../src/core/guidance/flight-setup.ts';
import { type GuidanceState, initialState } from '../../../src/core/guidance/guidance-state.ts';
import { reduce } from '../../../src/core/guidance/reduce.ts';
import { planText } from '../../../src/core/plan/plan-text.ts';
import { normalFrom, uniformFrom } from '../../flight/random.ts';
import { type FlightWorld, SimulatedFlight } from '../../flight/simulated-flight.ts';
import { trueVariationDegrees } from '../../flight/true-variation.ts';
import { drawnText, optionsFor } from '../order/drawn-text.ts';

const WALL_START_MILLISECONDS = Date.UTC(2027, 6, 17, 15, 0, 0);

/** An invented lake; nothing in these tests depends on where it is. */
export const SITE = { latitudeDegrees: 43.8721, longitudeDegrees: -74.4318, elevationMetres: 500 };

/** What a flight of a word is set up with: the planner's strokes at 104 kt, 45 degrees of bank, letters of 1,200 m. */
export function setupFor(text: string, changes: Partial<FlightSetup> = {}): FlightSetup {
  const options = optionsFor(text);
  const result = planText(drawnText(text).letters, options);
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  const { plan } = result;
  return {
    jobId: 'test',
    shipIndex: 0,
    shipName: 'Lead',
    site: SITE,
    layerHeightMetres: 3200,
    variationDegrees: -12.8,
    forecastWind: { eastMetresPerSecond: 3, northMetresPerSecond: 0 },
    trueAirspeedMetresPerSecond: options.trueAirspeedMetresPerSecond,
    writingBankRadians: options.writingBankRadians,
    turningBankRadians: options.turningBankRadians,
    maximumBankRadians: (55 * Math.PI) / 180,
    rollRateRadiansPerSecond: options.rollRateRadiansPerSecond,
    runInSeconds: options.runInSeconds,
    runOutSeconds: options.runOutSeconds,
    valveOnSeconds: 0.8,
    valveOffSeconds: 1.2,
    reactionSeconds: 0.4,
    oilKilograms: 180,
    oilKilogramsPerSecond: 0.34,
    letterHeightMetres: plan.letterHeightMetres,
    strokes: plan.ships[0]!.legs.flatMap((leg) =>
      leg.kind === 'smoke' ? [{ letterIndex: leg.letterIndex, character: leg.character, path: leg.path, plannedStartSeconds: leg.startSeconds }] : [],
    ),
    datum: { kind: 'first-smoke' },
    ...changes,
  };
}

/** Wind 10 kt off the forecast and wandering by 1.5 kt, airspeed wandering by 3 %, fixes of 3 m once a second. */
export function worldFor(seed: number, changes: Partial<FlightWorld> = {}): FlightWorld {
  const uniform = uniformFrom(seed * 7919);
  const direction = 2 * Math.PI * uniform();
  return {
    seed,
    windEastMetresPerSecond: 3 + 5.14 * Math.cos(direction),
    windNorthMetresPerSecond: 5.14 * Math.sin(direction),
    windWanderSigma: 0.77,
    airspeedMetresPerSecond: 53.6,
    airspeedWander: 0.03,
    reactionSeconds: 0.4,
    rollRateDegreesPerSecond: 30,
    valveOnSeconds: 0.8,
    valveOffSeconds: 1.2,
    fixIntervalSeconds: 1,
    fixNoiseMetres: 3,
    fixLatencySeconds: 0.6,
    fixLosses: () => false,
    startEastMetres: -2500,
    startNorthMetres: -2500,
    startHeadingDegrees: 45,
    variationDegrees: trueVariationDegrees(SITE, 3200, WALL_START_MILLISECONDS),
    ...changes,
  };
}

/** A moment of the truth behind a simulated flight. */
export interface TrueMoment {
  readonly atSeconds: number;
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
  readonly driftEastMetres: number;
  readonly driftNorthMetres: number;
  readonly windEast: number;
  readonly windNorth: number;
  readonly airspeed: number;
  readonly headingDegrees: number;
}

export interface FlownWord {
  readonly setup: FlightSetup;
  readonly simulation: SimulatedFlight;
  readonly finalPhase: string;
  /** As they come out of the store: through JSON. */
  readonly events: readonly FlightEvent[];
  /** Every cue as it was shown, with the time. */
  readonly shown: readonly { readonly atSeconds: number; readonly cues: Cues }[];
  readonly truth: readonly TrueMoment[];
  readonly log: ShipLog;
  readonly replay: Replay;
  readonly debrief: ShipDebrief;
}

export interface FlyOptions {
  readonly setup?: Partial<FlightSetup>;
  /** The hand's moves of the true switch go into the log. */
  readonly marked?: boolean;
  /** Smoke as somebody with a video of the sky would mark it. */
  readonly seen?: boolean;
}

const TICK_SECONDS = 0.1;

/** Flies a word at the desk, logs it, replays the log and debriefs it. */
export function flyWord(text: string, world: FlightWorld, options: FlyOptions = {}): FlownWord {
  return flySetup(setupFor(text, options.setup), world, options);
}

/** {@link flyWord} for a setup of any kind. */
export function flySetup(setup: FlightSetup, world: FlightWorld, options: Omit<FlyOptions, 'setup'> = {}): FlownWord {
  const simulation = new SimulatedFlight(world);
  const truth: TrueMoment[] = [];
  const shown: { atSeconds: number; cues: Cues }[] = [];
  const logged: FlightEvent[] = [];
  const handMoves: { readonly atSeconds: number; readonly smoke: 'on' | 'off' }[] = [];
  let state: GuidanceState = initialState;
  const take = (fact: FlightFact, atSeconds = simulation.atSeconds): void => {
    const event: FlightEvent = { ...fact, atSeconds, wallMilliseconds: WALL_START_MILLISECONDS + atSeconds * 1000 };
    logged.push(event);
    state = reduce(state, event);
  };
  take({ kind: 'flightStarted', setup });
  let smokeShown: 'on' | 'off' = 'off';
  while (simulation.atSeconds < 1500) {
    const fixes = simulation.fly(TICK_SECONDS);
    // A key is logged when it is pressed, between two ticks.
    while (options.marked && handMoves[0] !== undefined && handMoves[0].atSeconds <= simulation.atSeconds) {
      const { smoke, atSeconds } = handMoves.shift()!;
      take({ kind: 'smokeSwitched', smoke }, atSeconds);
    }
    for (const fix of fixes) {
      const place = geodeticFromSite(fix, setup.layerHeightMetres, setup.site);
      take({
        kind: 'fixReceived',
        fix: {
          ...place,
          accuracyMetres: 2.45 * world.fixNoiseMetres,
          altitudeMetres: null,
          groundSpeedMetresPerSecond: null,
          trackDegrees: null,
          stampMilliseconds: null,
        },
      });
    }
    take({ kind: 'clockAdvanced' });
    const cues = cuesFrom(state);
    const { turn, headingMagneticDegrees, bankDegrees, phase } = cues;
    simulation.show({ phase, turn: turn ?? '', headingDegrees: headingMagneticDegrees, bankDegrees, smoke: cues.smoke ?? '' });
    const smoke = cues.smoke === 'on' ? 'on' : 'off';
    if (smoke !== smokeShown) handMoves.push({ atSeconds: simulation.atSeconds + world.reactionSeconds, smoke });
    smokeShown = smoke;
    const { atSeconds, airEastMetres, airNorthMetres, driftEastMetres, driftNorthMetres, windEast, windNorth, airspeed, headingDegrees } = simulation;
    truth.push({ atSeconds, airEastMetres, airNorthMetres, driftEastMetres, driftNorthMetres, windEast, windNorth, airspeed, headingDegrees });
    shown.push({ atSeconds, cues });
    if (phase === 'finished' && !simulation.smokeOn) break;
  }
  const events = JSON.parse(JSON.stringify(logged)) as FlightEvent[];
  const log = shipLog(events)!;
  const replay = createReplay(events);
  replay.advance(events.length);
  const seen = options.seen ? seenByEye(simulation, world.seed) : [];
  return { setup, simulation, finalPhase: state.phase, events, shown, truth, log, replay, debrief: debriefShip(log, replay.replayed(), seen) };
}

/** What somebody with a video of the sky marks frame by frame: every beginning and end, off by 0.1 s. */
function seenByEye(simulation: SimulatedFlight, seed: number): SeenSmoke[] {
  const normal = normalFrom(uniformFrom(seed + 1_000_000));
  const seen: SeenSmoke[] = [];
  let onSeconds: number | null = null;
  for (const { atSeconds, on } of simulation.switchings) {
    const marked = atSeconds + 0.1 * normal();
    if (on) onSeconds = marked;
    else if (onSeconds !== null) {
      seen.push({ onSeconds, offSeconds: marked });
      onSeconds = null;
    }
  }
  return seen;
}

/** Mean true wind between two times. */
export function meanTrueWind(
  truth: readonly TrueMoment[],
  fromSeconds: number,
  toSeconds: number,
): { readonly eastMetresPerSecond: number; readonly northMetresPerSecond: number } {
  const inside = truth.filter(({ atSeconds }) => atSeconds >= fromSeconds && atSeconds <= toSeconds);
  return {
    eastMetresPerSecond: inside.reduce((sum, { windEast }) => sum + windEast, 0) / inside.length,
    northMetresPerSecond: inside.reduce((sum, { windNorth }) => sum + windNorth, 0) / inside.length,
  };
}
