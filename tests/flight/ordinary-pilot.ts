import { EarPilot, ORDINARY_EARS } from './ear-pilot.ts';
import { uniformFrom } from './random.ts';
import type { FlightWorld, ShownCue } from './simulated-flight.ts';

/** What an ordinary pilot's aircraft and instruments do otherwise than the job says, by a seed (the client's figures). */
export function ordinaryHands(seed: number, world: Pick<FlightWorld, 'airspeedMetresPerSecond' | 'valveOnSeconds' | 'valveOffSeconds'>): Partial<FlightWorld> {
  const uniform = uniformFrom(seed * 4001 + 3);
  const between = (from: number, to: number): number => from + uniform() * (to - from);
  return {
    reactionSeconds: 0,
    gyroOffDegrees: between(-3, 3),
    gyroCreepDegreesPerHour: uniform() < 0.5 ? -12 : 12,
    bankOffDegrees: between(-5, 5),
    airspeedMetresPerSecond: world.airspeedMetresPerSecond * (uniform() < 0.5 ? 0.95 : 1.05),
    turbulenceMetresPerSecond: 1.5,
    valveOnSeconds: world.valveOnSeconds + between(-0.3, 0.3),
    valveOffSeconds: world.valveOffSeconds + between(-0.3, 0.3),
  };
}

const GLANCE_SECONDS = 0.5;
const LEAST_APART_SECONDS = 1.5;
const MOST_APART_SECONDS = 4;
/** Before the smoke that was counted down to, the eyes stay on the screen. */
const EXPECTED_SECONDS = 3;
const EYE_SECONDS = 0.4;

/**
 * A pilot who looks outside, at the screen for half a second every 1.5 to 4 s, and listens: what was seen or heard last is
 * done. Imports nothing of the app.
 */
export class OrdinaryPilot {
  readonly ear: EarPilot;
  private readonly uniform: () => number;
  private looksAtSeconds = 0;
  private cue: ShownCue = { phase: 'standby', turn: '', headingDegrees: null, bankDegrees: null, smoke: 'off' };
  private heard = '';
  private readonly seen: { readonly atSeconds: number; readonly cue: ShownCue }[] = [];

  constructor(seed: number) {
    this.ear = new EarPilot({ seed, ...ORDINARY_EARS });
    this.uniform = uniformFrom(seed * 57 + 11);
  }

  /** What the hands do now, with the screen as it is and the voice as it was heard. */
  wants(shown: ShownCue, smokeInSeconds: number | null, atSeconds: number, compassDegrees: number): ShownCue {
    const looking = atSeconds >= this.looksAtSeconds || (smokeInSeconds !== null && smokeInSeconds <= EXPECTED_SECONDS);
    if (looking) this.seen.push({ atSeconds: atSeconds + EYE_SECONDS, cue: shown });
    if (atSeconds >= this.looksAtSeconds + GLANCE_SECONDS) {
      this.looksAtSeconds = atSeconds + LEAST_APART_SECONDS + this.uniform() * (MOST_APART_SECONDS - LEAST_APART_SECONDS);
    }
    const told = this.ear.wants(atSeconds, compassDegrees);
    const { headingDegrees, ...rest } = told;
    const words = JSON.stringify(this.ear.isCircling ? rest : { ...rest, headingDegrees });
    if (words !== this.heard) {
      this.heard = words;
      this.cue = told;
    }
    while (this.seen.length > 0 && this.seen[0]!.atSeconds <= atSeconds) this.cue = this.seen.shift()!.cue;
    return this.cue;
  }
}
