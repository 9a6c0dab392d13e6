import { geodeticFromSite } from '../earth/geodetic-from-site.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import { seededRandom } from '../order/seeded-random.ts';
import type { Fix } from '../tracking/fix.ts';
import { bearingFromDirection, directionFromBearing, radiansFromDegrees, signedRadians } from '../units/angle.ts';
import { STANDARD_GRAVITY } from '../units/quantity.ts';
import type { Cues } from './cues.ts';
import type { FlightSetup } from './flight-setup.ts';

/** How well the machine at the stick flies. */
export type RehearsalSkill = 'steady' | 'ordinary' | 'tired';

export interface RehearsalSettings {
  readonly seed: number;
  /** The true wind at the layer, which the forecast need not know. */
  readonly wind: WindVector;
  readonly skill: RehearsalSkill;
  readonly startEastMetres: number;
  readonly startNorthMetres: number;
  readonly startHeadingDegrees: number;
  readonly fixIntervalSeconds: number;
  readonly fixNoiseMetres: number;
  readonly fixLatencySeconds: number;
}

/** Who flies: the machine by the cues, or a person by keys or touch. */
export type RehearsalControl =
  | { readonly kind: 'cues'; readonly cues: Cues }
  | { readonly kind: 'hands'; readonly bankRadians: number; readonly smoke: 'on' | 'off' };

interface CueSeen {
  readonly atSeconds: number;
  readonly turn: Cues['turn'];
  /** Magnetic. */
  readonly headingDegrees: number | null;
  readonly bankDegrees: number | null;
  readonly smoke: 'on' | 'off';
}

interface FixMade {
  readonly arrivesAtSeconds: number;
  readonly madeAtSeconds: number;
  readonly fix: Fix;
}

/** An aircraft at the desk: where it truly is, and what is on its way to the pilot's hands and the receiver. */
export interface RehearsalAircraft {
  readonly atSeconds: number;
  readonly eastMetres: number;
  readonly northMetres: number;
  readonly directionRadians: number;
  readonly bankRadians: number;
  readonly airspeedMetresPerSecond: number;
  readonly smokeOn: boolean;
  /** The valve moves then; null when it has. */
  readonly valve: { readonly atSeconds: number; readonly on: boolean } | null;
  readonly windWander: WindVector;
  readonly airspeedWander: number;
  readonly headingWanderRadians: number;
  readonly randomState: number;
  readonly seen: readonly CueSeen[];
  readonly fixesUnderway: readonly FixMade[];
  readonly nextFixAtSeconds: number;
  readonly settings: RehearsalSettings;
  readonly setup: FlightSetup;
}

export interface RehearsalStep {
  readonly aircraft: RehearsalAircraft;
  /** Those that arrived meanwhile, oldest first, with their age on arrival. */
  readonly fixes: readonly { readonly fix: Fix; readonly ageSeconds: number }[];
  /** Set when the hand moved the switch; the smoke follows by the valve's own time. */
  readonly switched: 'on' | 'off' | null;
}

/** Hands by skill: invented, chosen so that `ordinary` is off by what instructors call normal; common practice, no source. */
const SKILLS: Record<
  RehearsalSkill,
  { readonly reactionSeconds: number; readonly headingSigmaRadians: number; readonly airspeedSigma: number; readonly bankShare: number }
> = {
  steady: { reactionSeconds: 0.3, headingSigmaRadians: radiansFromDegrees(0.7), airspeedSigma: 0.01, bankShare: 1 },
  ordinary: { reactionSeconds: 0.4, headingSigmaRadians: radiansFromDegrees(1.5), airspeedSigma: 0.03, bankShare: 0.97 },
  tired: { reactionSeconds: 0.8, headingSigmaRadians: radiansFromDegrees(3), airspeedSigma: 0.04, bankShare: 0.9 },
};

const STEP_SECONDS = 0.05;
const WIND_SIGMA = 0.5;
const WIND_MEMORY_SECONDS = 300;
const AIRSPEED_MEMORY_SECONDS = 60;
const HEADING_MEMORY_SECONDS = 20;
const CORRECTION_BANK_RADIANS = radiansFromDegrees(20);

/** An aircraft ready to fly a setup, in level flight at the planned airspeed. */
export function startRehearsal(setup: FlightSetup, settings: RehearsalSettings, atSeconds = 0): RehearsalAircraft {
  return {
    atSeconds,
    eastMetres: settings.startEastMetres,
    northMetres: settings.startNorthMetres,
    directionRadians: directionFromBearing(radiansFromDegrees(settings.startHeadingDegrees)),
    bankRadians: 0,
    airspeedMetresPerSecond: setup.trueAirspeedMetresPerSecond,
    smokeOn: false,
    valve: null,
    windWander: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
    airspeedWander: 0,
    headingWanderRadians: 0,
    randomState: settings.seed >>> 0,
    seen: [],
    fixesUnderway: [],
    nextFixAtSeconds: atSeconds,
    settings,
    setup,
  };
}

/**
 * The aircraft a while later. Deterministic: the same aircraft, control and time give the same step, bit for bit.
 *
 * @param dtSeconds above 0; flown in steps of 0.05 s
 */
export function stepRehearsal(aircraft: RehearsalAircraft, control: RehearsalControl, dtSeconds: number): RehearsalStep {
  let current = control.kind === 'cues' ? { ...aircraft, seen: [...aircraft.seen, cueSeen(aircraft.atSeconds, control.cues)] } : aircraft;
  const untilSeconds = aircraft.atSeconds + dtSeconds;
  let switched: RehearsalStep['switched'] = null;
  while (current.atSeconds < untilSeconds - 1e-9) {
    const before = switchOn(current);
    current = smallStep(current, control, Math.min(STEP_SECONDS, untilSeconds - current.atSeconds));
    if (switchOn(current) !== before) switched = switchOn(current) ? 'on' : 'off';
  }
  const arrived = current.fixesUnderway.filter(({ arrivesAtSeconds }) => arrivesAtSeconds <= current.atSeconds + 1e-9);
  return {
    aircraft: { ...current, fixesUnderway: current.fixesUnderway.slice(arrived.length) },
    fixes: arrived.map(({ fix, madeAtSeconds }) => ({ fix, ageSeconds: current.atSeconds - madeAtSeconds })),
    switched,
  };
}

function switchOn({ valve, smokeOn }: RehearsalAircraft): boolean {
  return valve?.on ?? smokeOn;
}

function cueSeen(atSeconds: number, { turn, headingMagneticDegrees, bankDegrees, smoke, phase }: Cues): CueSeen {
  const blank = phase === 'no-cue' || phase === 'standby';
  return { atSeconds, turn: blank ? null : turn, headingDegrees: blank ? null : headingMagneticDegrees, bankDegrees, smoke: smoke ?? 'off' };
}

function smallStep(aircraft: RehearsalAircraft, control: RehearsalControl, dt: number): RehearsalAircraft {
  const { settings, setup } = aircraft;
  const skill = SKILLS[settings.skill];
  const random = seededRandom(aircraft.randomState);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
  const wandered = (value: number, sigma: number, memorySeconds: number): number => {
    const keep = Math.exp(-dt / memorySeconds);
    return value * keep + sigma * Math.sqrt(1 - keep * keep) * normal();
  };
  const windWander = {
    eastMetresPerSecond: wandered(aircraft.windWander.eastMetresPerSecond, WIND_SIGMA, WIND_MEMORY_SECONDS),
    northMetresPerSecond: wandered(aircraft.windWander.northMetresPerSecond, WIND_SIGMA, WIND_MEMORY_SECONDS),
  };
  const airspeedWander = wandered(aircraft.airspeedWander, skill.airspeedSigma, AIRSPEED_MEMORY_SECONDS);
  const headingWanderRadians = wandered(aircraft.headingWanderRadians, skill.headingSigmaRadians, HEADING_MEMORY_SECONDS);
  const airspeed = setup.trueAirspeedMetresPerSecond * (1 + airspeedWander);

  const actedAt = aircraft.atSeconds - skill.reactionSeconds;
  const seen = aircraft.seen.filter((_, index, all) => index === all.length - 1 || all[index + 1]!.atSeconds > actedAt);
  const cue = seen[0] !== undefined && seen[0].atSeconds <= actedAt ? seen[0] : null;
  const wantedBank = control.kind === 'hands' ? control.bankRadians : bankFor(cue, aircraft, airspeed, skill.bankShare);
  const wantedSmoke = control.kind === 'hands' ? control.smoke === 'on' : cue?.smoke === 'on';

  const rollStep = setup.rollRateRadiansPerSecond * dt;
  const bankRadians = aircraft.bankRadians + Math.min(rollStep, Math.max(-rollStep, wantedBank - aircraft.bankRadians));
  const directionRadians = signedRadians(aircraft.directionRadians - ((STANDARD_GRAVITY * Math.tan(bankRadians)) / airspeed) * dt);
  const eastMetres = aircraft.eastMetres + (airspeed * Math.cos(directionRadians) + settings.wind.eastMetresPerSecond + windWander.eastMetresPerSecond) * dt;
  const northMetres =
    aircraft.northMetres + (airspeed * Math.sin(directionRadians) + settings.wind.northMetresPerSecond + windWander.northMetresPerSecond) * dt;
  const atSeconds = aircraft.atSeconds + dt;
  const { smokeOn, valve } = valveAfter(aircraft, wantedSmoke, atSeconds);

  const dueFix = atSeconds >= aircraft.nextFixAtSeconds - 1e-9;
  const made = dueFix
    ? [
        {
          madeAtSeconds: atSeconds,
          arrivesAtSeconds: atSeconds + settings.fixLatencySeconds,
          fix: fixAt(eastMetres + settings.fixNoiseMetres * normal(), northMetres + settings.fixNoiseMetres * normal(), aircraft),
        },
      ]
    : [];
  return {
    ...aircraft,
    atSeconds,
    eastMetres,
    northMetres,
    directionRadians,
    bankRadians,
    airspeedMetresPerSecond: airspeed,
    smokeOn,
    valve,
    windWander,
    airspeedWander,
    headingWanderRadians,
    randomState: random.state(),
    seen,
    fixesUnderway: [...aircraft.fixesUnderway, ...made],
    nextFixAtSeconds: dueFix ? aircraft.nextFixAtSeconds + settings.fixIntervalSeconds : aircraft.nextFixAtSeconds,
  };
}

/** Bank wanted, right positive: the cued one until the roll-out must begin, then onto the heading. */
function bankFor(cue: CueSeen | null, aircraft: RehearsalAircraft, airspeed: number, bankShare: number): number {
  if (cue === null || cue.headingDegrees === null) return 0;
  // A compass of its own: it shows the true heading less the place's variation.
  const compassRadians = bearingFromDirection(aircraft.directionRadians + aircraft.headingWanderRadians) - radiansFromDegrees(aircraft.setup.variationDegrees);
  const toRight = signedRadians(radiansFromDegrees(cue.headingDegrees) - compassRadians);
  const correction = Math.min(CORRECTION_BANK_RADIANS, Math.max(-CORRECTION_BANK_RADIANS, 2.5 * toRight));
  if (cue.turn === 'straight' || cue.turn === null) return correction;
  const sign = cue.turn === 'right' ? 1 : -1;
  const toGo = toRight * sign < -1 ? toRight * sign + 2 * Math.PI : toRight * sign;
  const rate = (STANDARD_GRAVITY * Math.tan(Math.abs(aircraft.bankRadians))) / airspeed;
  const rollOutRadians = (rate * Math.abs(aircraft.bankRadians)) / aircraft.setup.rollRateRadiansPerSecond / 2;
  return toGo > rollOutRadians ? sign * bankShare * radiansFromDegrees(cue.bankDegrees ?? 0) : correction;
}

function valveAfter(aircraft: RehearsalAircraft, wanted: boolean, atSeconds: number): Pick<RehearsalAircraft, 'smokeOn' | 'valve'> {
  const { setup, smokeOn } = aircraft;
  let { valve } = aircraft;
  if (wanted !== switchOn(aircraft)) valve = { on: wanted, atSeconds: atSeconds + (wanted ? setup.valveOnSeconds : setup.valveOffSeconds) };
  if (valve !== null && valve.atSeconds <= atSeconds + 1e-9) return { smokeOn: valve.on, valve: null };
  return { smokeOn, valve };
}

function fixAt(eastMetres: number, northMetres: number, { setup, settings }: RehearsalAircraft): Fix {
  return {
    ...geodeticFromSite({ eastMetres, northMetres }, setup.layerHeightMetres, setup.site),
    accuracyMetres: 2.45 * Math.max(1, settings.fixNoiseMetres),
    altitudeMetres: setup.layerHeightMetres,
    groundSpeedMetresPerSecond: null,
    trackDegrees: null,
    stampMilliseconds: null,
  };
}
