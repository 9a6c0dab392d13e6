import { normalFrom, uniformFrom, wanderFrom } from './random.ts';

/**
 * A truth that knows nothing of the app: air that moves, an aircraft that flies in it, a pilot who obeys only what a
 * cue screen shows, a receiver that is late and noisy, and the smoke that was really laid. Written apart from the
 * app's own rehearsal, in plain bearings.
 */
export interface FlightWorld {
  readonly seed: number;
  /** True wind's mean, blowing towards, and how it wanders. */
  readonly windEastMetresPerSecond: number;
  readonly windNorthMetresPerSecond: number;
  readonly windWanderSigma: number;
  /** Ships that fly in the same air give it the same seed; the flight's own seed plus one where it is left out. */
  readonly windSeed?: number;
  readonly airspeedMetresPerSecond: number;
  /** Share of the airspeed, one standard deviation. */
  readonly airspeedWander: number;
  readonly reactionSeconds: number;
  readonly rollRateDegreesPerSecond: number;
  readonly valveOnSeconds: number;
  readonly valveOffSeconds: number;
  readonly fixIntervalSeconds: number;
  readonly fixNoiseMetres: number;
  readonly fixLatencySeconds: number;
  /** Times at which no fix is made, as [from, to) in seconds. */
  readonly fixLosses: (smokeOn: boolean, atSeconds: number) => boolean;
  readonly startEastMetres: number;
  readonly startNorthMetres: number;
  readonly startHeadingDegrees: number;
  /** The pilot's gyro is off by so much from the start, and creeps; none where it is left out. */
  readonly gyroOffDegrees?: number;
  readonly gyroCreepDegreesPerHour?: number;
  /** Bank flown over the one asked for, in degrees. */
  readonly bankOffDegrees?: number;
  /** Gusts within seconds, each way, one standard deviation. */
  readonly turbulenceMetresPerSecond?: number;
  /** The wind's change with height, and how far from its layer the ship wanders; none where it is left out. */
  readonly shear?: { readonly eastPerSecond: number; readonly northPerSecond: number; readonly heightWanderMetres: number };
  /** Magnetic variation of the place, east positive: the compass shows the true heading less this. */
  readonly variationDegrees: number;
}

/** What the pilot can see: the machine values of the cue contract. */
export interface ShownCue {
  readonly phase: string;
  readonly turn: string;
  /** Magnetic: what the pilot holds against the compass. */
  readonly headingDegrees: number | null;
  readonly bankDegrees: number | null;
  readonly smoke: string;
}

export interface SimulatedFix {
  readonly measuredAtSeconds: number;
  readonly eastMetres: number;
  readonly northMetres: number;
}

/** A puff of smoke where it would lie if the air had stood still since the start. */
export interface Puff {
  readonly atSeconds: number;
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
  /** How it slips against the layer's air, where it was laid above or below. */
  readonly slip?: { readonly eastMetresPerSecond: number; readonly northMetresPerSecond: number };
}

const STEP_SECONDS = 0.05;
const GRAVITY = 9.806_65;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const turnTo = (fromDegrees: number, toDegrees: number): number => ((((toDegrees - fromDegrees + 180) % 360) + 360) % 360) - 180;

export class SimulatedFlight {
  atSeconds = 0;
  headingDegrees: number;
  bankDegrees = 0;
  smokeOn = false;
  airEastMetres: number;
  airNorthMetres: number;
  /** How far the air has moved since the start. */
  driftEastMetres = 0;
  driftNorthMetres = 0;
  windEast: number;
  windNorth: number;
  airspeed: number;
  /** The smoke laid, a list for each time the valve was open. */
  readonly trails: Puff[][] = [];
  /** How far the air had moved, each ten seconds from the start. */
  readonly driftTrack: { readonly atSeconds: number; readonly eastMetres: number; readonly northMetres: number }[] = [];
  readonly switchings: { readonly atSeconds: number; readonly on: boolean }[] = [];

  private readonly world: FlightWorld;
  private readonly normal: () => number;
  private readonly windWander: readonly [(dt: number) => number, (dt: number) => number];
  private readonly airspeedWander: (dt: number) => number;
  private readonly compassWander: (dt: number) => number;
  private readonly turbulence: readonly [(dt: number) => number, (dt: number) => number] | null;
  private readonly heightWander: ((dt: number) => number) | null;
  private slip: Puff['slip'];
  private readonly seen: { readonly atSeconds: number; readonly cue: ShownCue }[] = [];
  private smokeReaching: { readonly atSeconds: number; readonly on: boolean } | null = null;
  private nextFixAtSeconds = 0;
  private readonly undelivered: SimulatedFix[] = [];

  constructor(world: FlightWorld) {
    this.world = world;
    this.normal = normalFrom(uniformFrom(world.seed));
    this.headingDegrees = world.startHeadingDegrees;
    this.airEastMetres = world.startEastMetres;
    this.airNorthMetres = world.startNorthMetres;
    const gusts = normalFrom(uniformFrom(world.windSeed ?? world.seed + 1));
    this.windWander = [wanderFrom(gusts, world.windWanderSigma, 300), wanderFrom(gusts, world.windWanderSigma, 300)];
    this.airspeedWander = wanderFrom(this.normal, world.airspeedWander, 60);
    this.compassWander = wanderFrom(this.normal, 1.5, 20);
    const { turbulenceMetresPerSecond: rough } = world;
    this.turbulence = rough === undefined ? null : [wanderFrom(this.normal, rough, 4), wanderFrom(this.normal, rough, 4)];
    this.heightWander = world.shear === undefined ? null : wanderFrom(normalFrom(uniformFrom(world.seed + 7)), world.shear.heightWanderMetres, 60);
    this.windEast = world.windEastMetresPerSecond;
    this.windNorth = world.windNorthMetresPerSecond;
    this.airspeed = world.airspeedMetresPerSecond;
  }

  /** The pilot glances at the screen. */
  show(cue: ShownCue): void {
    this.seen.push({ atSeconds: this.atSeconds, cue });
  }

  /** Flies on for a time and returns the fixes that arrived meanwhile. */
  fly(seconds: number): SimulatedFix[] {
    const until = this.atSeconds + seconds - 1e-9;
    const arrived: SimulatedFix[] = [];
    while (this.atSeconds < until) {
      this.step(STEP_SECONDS);
      while (this.undelivered.length > 0 && this.undelivered[0]!.measuredAtSeconds + this.world.fixLatencySeconds <= this.atSeconds + 1e-9) {
        arrived.push(this.undelivered.shift()!);
      }
    }
    return arrived;
  }

  private step(dt: number): void {
    const { world } = this;
    this.windEast = world.windEastMetresPerSecond + this.windWander[0](dt);
    this.windNorth = world.windNorthMetresPerSecond + this.windWander[1](dt);
    this.airspeed = world.airspeedMetresPerSecond * (1 + this.airspeedWander(dt));
    const creep = ((world.gyroCreepDegreesPerHour ?? 0) * this.atSeconds) / 3600;
    const compassError = this.compassWander(dt) + (world.gyroOffDegrees ?? 0) + creep;
    this.bankDegrees +=
      Math.max(-1, Math.min(1, (this.wantedBank(compassError) - this.bankDegrees) / (world.rollRateDegreesPerSecond * dt))) *
      world.rollRateDegreesPerSecond *
      dt;
    this.headingDegrees += (((GRAVITY * Math.tan(radians(this.bankDegrees))) / this.airspeed) * dt * 180) / Math.PI;
    this.headingDegrees = ((this.headingDegrees % 360) + 360) % 360;
    this.airEastMetres += this.airspeed * Math.sin(radians(this.headingDegrees)) * dt;
    this.airNorthMetres += this.airspeed * Math.cos(radians(this.headingDegrees)) * dt;
    if (this.turbulence !== null) {
      this.airEastMetres += this.turbulence[0](dt) * dt;
      this.airNorthMetres += this.turbulence[1](dt) * dt;
    }
    if (this.heightWander !== null) {
      const height = this.heightWander(dt);
      this.slip = { eastMetresPerSecond: world.shear!.eastPerSecond * height, northMetresPerSecond: world.shear!.northPerSecond * height };
      this.airEastMetres += this.slip.eastMetresPerSecond * dt;
      this.airNorthMetres += this.slip.northMetresPerSecond * dt;
    }
    this.driftEastMetres += this.windEast * dt;
    this.driftNorthMetres += this.windNorth * dt;
    if (this.atSeconds >= this.driftTrack.length * 10 - 1e-9) {
      this.driftTrack.push({ atSeconds: this.atSeconds + dt, eastMetres: this.driftEastMetres, northMetres: this.driftNorthMetres });
    }
    this.atSeconds += dt;
    this.moveSmoke();
    if (this.smokeOn) {
      const { atSeconds, airEastMetres, airNorthMetres, slip } = this;
      this.trails.at(-1)!.push({ atSeconds, airEastMetres, airNorthMetres, ...(slip === undefined ? {} : { slip }) });
    }
    if (this.atSeconds >= this.nextFixAtSeconds - 1e-9) {
      this.nextFixAtSeconds += world.fixIntervalSeconds;
      if (!world.fixLosses(this.smokeOn, this.atSeconds)) {
        this.undelivered.push({
          measuredAtSeconds: this.atSeconds,
          eastMetres: this.airEastMetres + this.driftEastMetres + world.fixNoiseMetres * this.normal(),
          northMetres: this.airNorthMetres + this.driftNorthMetres + world.fixNoiseMetres * this.normal(),
        });
      }
    }
  }

  private acted(): ShownCue | null {
    const before = this.atSeconds - this.world.reactionSeconds;
    while (this.seen.length > 1 && this.seen[1]!.atSeconds <= before) this.seen.shift();
    const first = this.seen[0];
    return first !== undefined && first.atSeconds <= before ? first.cue : null;
  }

  /** Rolls to the bank shown, out on the heading shown; without a cue, wings level. */
  private wantedBank(compassError: number): number {
    const cue = this.acted();
    if (cue === null || cue.headingDegrees === null || cue.phase === 'no-cue') return 0;
    const compassDegrees = this.headingDegrees - this.world.variationDegrees + compassError;
    const errorDegrees = turnTo(compassDegrees, cue.headingDegrees);
    if (cue.turn === 'straight') return Math.max(-20, Math.min(20, 2.5 * errorDegrees));
    const sign = cue.turn === 'right' ? 1 : -1;
    let toGo = errorDegrees * sign;
    if (toGo < -60) toGo += 360;
    const rate = ((GRAVITY * Math.tan(radians(Math.max(5, Math.abs(this.bankDegrees))))) / this.airspeed) * (180 / Math.PI);
    const rollOutDegrees = (rate * Math.abs(this.bankDegrees)) / this.world.rollRateDegreesPerSecond / 2;
    if (toGo > rollOutDegrees) return sign * Math.max(5, (cue.bankDegrees ?? 0) + (this.world.bankOffDegrees ?? 0));
    return Math.max(-20, Math.min(20, 2.5 * errorDegrees));
  }

  private moveSmoke(): void {
    const cue = this.acted();
    const wanted = cue?.smoke === 'on';
    const intended = this.smokeReaching?.on ?? this.smokeOn;
    if (wanted !== intended) {
      this.smokeReaching = { on: wanted, atSeconds: this.atSeconds + (wanted ? this.world.valveOnSeconds : this.world.valveOffSeconds) };
    }
    if (this.smokeReaching !== null && this.atSeconds >= this.smokeReaching.atSeconds - 1e-9) {
      this.smokeOn = this.smokeReaching.on;
      this.switchings.push({ atSeconds: this.atSeconds, on: this.smokeOn });
      if (this.smokeOn) this.trails.push([]);
      this.smokeReaching = null;
    }
  }
}
