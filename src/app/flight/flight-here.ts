import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { FlightFact } from '../../core/guidance/flight-event.ts';
import type { FlightSetup } from '../../core/guidance/flight-setup.ts';
import type { GuidanceState } from '../../core/guidance/guidance-state.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import type { FlightWorld } from '../../sensors/flight-world.ts';
import type { Hands } from '../../sensors/hands.ts';
import type { WakeLockState } from '../../sensors/wake-lock.ts';
import type { CautionSources } from './flight-cautions.ts';
import type { SourceChoice } from './flight-choices.ts';
import type { Resumption, WorldFor } from './world-types.ts';
import { flyFlight, type Flying } from './fly-flight.ts';
import { laterVoice } from './voice/later-voice.ts';
import type { PatientLog } from './patient-log.ts';
import { soon } from '../soon.ts';
import type { FlightVoice } from './voice/speaker-types.ts';
import type { SwitchSettings } from './switch-settings.ts';

/** A flight of this page, with everything around it that the pilot should know of. */
export interface FlightHere extends Flying {
  readonly flightId: string;
  readonly jobId: string;
  readonly source: SourceChoice['kind'];
  readonly cautions: ReadonlySignal<readonly string[]>;
  readonly log: PatientLog;
  /** As chosen on this tablet, told by the screen; null until they are known. */
  readonly units: Signal<UnitText | null>;
  /** Rehearsals and recordings may run faster than the room. */
  readonly speed: FlightWorld['speed'];
  /** For a rehearsal flown by a person. */
  readonly hands: Hands | null;
  /** Ends everything that the flight started, the log last. */
  end(): void;
}

export interface FlightHereParts {
  readonly flightId: string;
  readonly setup: FlightSetup;
  readonly source: SourceChoice;
  readonly switchSettings: SwitchSettings;
  readonly log: PatientLog;
  readonly readOnly: ReadonlySignal<boolean>;
  /** What the flight's events so far lead to. */
  readonly before: GuidanceState;
  readonly first: FlightFact;
  readonly resumption: Resumption | null;
  readonly worldFor: WorldFor;
  /** Made ready by the touch that began the flight; null after a kill, when it comes later and the next touch wakes it. */
  readonly voice: FlightVoice | null;
}

/** Begins to fly on this page. */
export function flyHere(parts: FlightHereParts): FlightHere {
  const voice = parts.voice ?? laterVoice(async () => (await import('./voice/flight-voice.ts')).createFlightVoice());
  const units = signal<UnitText | null>(null);
  const wakeLock = signal<WakeLockState>('asking');
  const cautionsOf = signal<(sources: CautionSources) => readonly string[]>(() => []);
  // The world shows the cues to the aircraft it flies, and the flight flies in the world: one must be made first.
  let flying: Flying | null = null;
  const readCues = () => {
    if (flying === null) throw new RangeError('the world was stepped before the flight began');
    return flying.cues.peek();
  };
  const world = parts.worldFor(parts.source, parts.setup, parts.resumption, readCues);
  const { hands } = world;
  flying = flyFlight({ clock: world.clock, position: world.position, log: parts.log, speakerFrom: voice.speakerFrom }, parts.before, parts.first);

  const unlock = (): void => voice.unlock();
  addEventListener('pointerdown', unlock);
  addEventListener('keydown', unlock);
  const { wiring, action } = parts.switchSettings;
  const made = flying;
  const { smokeSwitched } = made;
  const endings = [
    flying.end,
    soon(async () => {
      const { keepAwake, wakeLockPlatform } = await import('../../sensors/wake-lock.ts');
      return keepAwake(wakeLockPlatform(), (next) => (wakeLock.value = next));
    }),
    soon(async () => (await import('./after-first-cue.ts')).afterFirstCue(made, cautionsOf)),
    world.followSmoke(flying.smokeSwitched),
    wiring === null || hands !== null
      ? () => {}
      : soon(async () => {
          const { followSmokeSwitch, switchPlatform } = await import('../../sensors/smoke-switch.ts');
          return followSmokeSwitch(wiring, action, switchPlatform(), smokeSwitched);
        }),
    () => hands?.end(),
    () => removeEventListener('pointerdown', unlock),
    () => removeEventListener('keydown', unlock),
    voice.end,
    () => void parts.log.close(),
  ];
  const cautionSources: CautionSources = { ...flying, logNotSaving: parts.log.notSaving, sound: voice.state, wakeLock, readOnly: parts.readOnly, units };
  return {
    ...flying,
    flightId: parts.flightId,
    jobId: parts.setup.jobId,
    source: parts.source.kind,
    cautions: computed(() => cautionsOf.value(cautionSources)),
    log: parts.log,
    units,
    speed: world.speed,
    hands,
    end() {
      for (const ending of endings) ending();
    },
  };
}
