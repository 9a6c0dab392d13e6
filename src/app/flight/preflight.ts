import { computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { jobText } from '../../core/job/job-text.ts';
import { jobAir } from '../../core/job/job-air.ts';
import { writeJob } from '../../core/job/write-job.ts';
import { windFromVector } from '../../core/earth/wind-vector.ts';
import type { Job } from '../../core/job/job.ts';
import { fixesFromTrack, type TimedFix } from '../../core/tracks/track-fixes.ts';
import type { TrackFile } from '../../workers/track-reader-client.ts';
import type { DatumChoice } from '../../core/guidance/flight-setup.ts';
import { flightSetupFromJob } from '../../core/guidance/flight-setup-from-job.ts';
import type { RehearsalSkill } from '../../core/guidance/rehearsal-aircraft.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { CALM } from '../../core/earth/wind-vector.ts';
import { knotsFromMetresPerSecond } from '../../core/units/quantity.ts';
import { learnSmokeSwitch, type SwitchAction, switchPlatform } from '../../sensors/smoke-switch.ts';
import type { GoNoGo } from '../../core/checks/go-no-go.ts';
import { plannedChecks } from '../../core/checks/planned-checks.ts';
import { readingOf } from '../../core/sky/reading-of.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import { createRulesChoice } from '../draw/rules-choice.ts';
import { readSmokeCalibration } from '../smoke-settings.ts';
import { createFlightVoice } from './voice/flight-voice.ts';
import type { ReceiverChoice, SourceChoice } from './flight-choices.ts';
import type { WriterState } from '../../store/one-writer.ts';
import { flightWorldFor } from './flight-world-for.ts';
import type { FlightDesk } from './flight-desk.ts';
import { type Overlay, parseOverlayText } from '../../core/place/overlay.ts';
import { keptOverlay } from '../kept-overlay.ts';
import { type Planner, type PlanOrReason, planOrReason } from '../planner.ts';
import { type Readiness, type ReadinessParts, watchReadiness } from './readiness.ts';

/** How the datum is to be found: the moment at which the letters' place over the ground is fixed. */
export type DatumWish =
  | { readonly kind: 'first-smoke' }
  | { readonly kind: 'at-time'; readonly wallMilliseconds: number }
  /** So long after the start button is pressed on a radio call. */
  | { readonly kind: 'time-hack'; readonly afterSeconds: number };

/** A recording that can be flown again. */
export interface Recording {
  readonly name: string;
  readonly fixes: readonly TimedFix[];
}

export type RecordingState =
  | { readonly kind: 'none' }
  | { readonly kind: 'read'; readonly recordings: readonly Recording[]; readonly chosen: number }
  | { readonly kind: 'refused'; readonly reason: string };

/** Everything chosen and looked at on the ground before a flight. */
export interface Preflight {
  readonly job: Job;
  /** Null while it is being made. */
  readonly planned: ReadonlySignal<PlanOrReason | null>;
  /** The wind the plan believes in; null when it cannot be used. */
  readonly forecast: { readonly fromDegrees: number; readonly knots: number } | null;
  readonly source: Signal<SourceChoice['kind']>;
  readonly windFromDegrees: Signal<number>;
  readonly windKnots: Signal<number>;
  readonly skill: Signal<RehearsalSkill>;
  readonly flownBy: Signal<'machine' | 'hands'>;
  readonly speed: Signal<number>;
  readonly recording: Signal<RecordingState>;
  /** Null until it is chosen by hand: with several ships nothing is chosen for anybody. */
  readonly datum: Signal<DatumWish | null>;
  /** Which ship this is; null until it is chosen by hand. */
  readonly shipIndex: Signal<number | null>;
  /** The pilot's own receiver; null for the device's. */
  readonly receiver: Signal<ReceiverChoice | null>;
  /** How high letters stand on the field of a walking rehearsal, and how many metres of flight a metre walked is. */
  readonly fieldLetterMetres: Signal<number>;
  readonly walkingScale: ReadonlySignal<number>;
  /** Whether the flight begins with the screen dark, led by the voice. */
  readonly byEar: Signal<boolean>;
  readonly readiness: Readiness;
  /** The plan's go or no-go, as Draw says it; null while there is no plan. */
  readonly checks: ReadonlySignal<GoNoGo | null>;
  readonly learningSwitch: ReadonlySignal<boolean>;
  /** Why it cannot be started; null when it can. */
  readonly obstacle: ReadonlySignal<string | null>;
  readRecording(file: TrackFile): Promise<void>;
  learnSwitch(): void;
  forgetSwitch(): void;
  setSwitchAction(action: SwitchAction): void;
  playTestSignal(): void;
  /** Begins the flight; to be called in a touch, which also lets the sound begin. */
  start(): void;
  end(): void;
}

export interface PreflightParts extends Omit<ReadinessParts, 'sound'> {
  readonly flightDesk: FlightDesk;
  readonly planner: Planner;
  readonly writer: ReadonlySignal<WriterState>;
}

/** A wind that the forecast does not know of: ten knots across it. */
const UNKNOWN_WIND_KNOTS = 10;
const UNKNOWN_WIND_DEGREES = 20;

/** The ground side of one job's flight. */
export function createPreflight(parts: PreflightParts): Preflight {
  const { job, flightDesk, nowMilliseconds } = parts;
  const voice = createFlightVoice();
  let voiceHandedOver = false;
  const planned = signal<PlanOrReason | null>(null);
  void planOrReason(parts.planner, job, parts.database).then((made) => (planned.value = made));
  const overlay = signal<Overlay | null>(null);
  // What cannot be read is said on Draw, where it is loaded; the flight then knows of no areas.
  void keptOverlay(parts.database, job.id)
    .read()
    .then((kept) => {
      const read = kept === null ? null : parseOverlayText(kept.text);
      if (read?.ok === true) overlay.value = read.overlay;
    })
    .catch(() => {});
  const calibration = signal<SmokeCalibration | null>(null);
  // Without it the published values hold, as on Draw.
  readSmokeCalibration(parts.database).then(
    (read) => (calibration.value = read),
    () => {},
  );
  const { rules } = createRulesChoice(parts.database);
  // Apart: it costs the most, and areas and rules change nothing of it.
  const reading = computed(() => (planned.value?.ok === true ? readingOf(planned.value.value, calibration.value) : null));
  const checks = computed(() =>
    planned.value?.ok !== true || reading.value === null ? null : plannedChecks(planned.value.value, reading.value, overlay.value, rules.value),
  );
  const forecast = forecastOf(job);
  const source = signal<SourceChoice['kind']>('rehearsal');
  const windFromDegrees = signal(Math.round((forecast?.fromDegrees ?? 0) + UNKNOWN_WIND_DEGREES) % 360);
  const windKnots = signal(Math.round((forecast?.knots ?? 0) + UNKNOWN_WIND_KNOTS));
  const skill = signal<RehearsalSkill>('ordinary');
  const flownBy = signal<'machine' | 'hands'>('machine');
  const speed = signal(1);
  const recording = signal<RecordingState>({ kind: 'none' });
  // Ships of a formation keep one timetable, so they have one datum.
  const alone = job.ships.length === 1;
  const datum = signal<DatumWish | null>(alone ? { kind: 'first-smoke' } : null);
  const shipIndex = signal(alone ? 0 : null);
  const byEar = signal(false);
  const learningSwitch = signal(false);
  let endLearning = (): void => {};
  const readiness = watchReadiness({ ...parts, sound: voice.state });
  const receiver = signal<ReceiverChoice | null>(null);
  const fieldLetterMetres = signal(30);
  const walkingScale = computed(() => jobText(job).letterHeightMetres / fieldLetterMetres.value);
  // A receiver on a port is heard by its own trial; the device's is then left alone.
  const endSource = effect(() => {
    readiness.watchPosition.value = source.value === 'device' && receiver.value === null;
  });

  const sourceChoice = (): SourceChoice | null => {
    switch (source.value) {
      case 'device':
        return receiver.value === null ? { kind: 'device' } : { kind: 'device', receiver: receiver.value };
      case 'rehearsal':
        return {
          kind: 'rehearsal',
          windFromDegrees: windFromDegrees.value,
          windKnots: windKnots.value,
          skill: skill.value,
          flownBy: flownBy.value,
          speed: speed.value,
          seed: Math.floor(nowMilliseconds()) % 2 ** 31,
        };
      case 'walking':
        return { kind: 'walking', scale: walkingScale.value };
      case 'recorded': {
        const read = recording.value;
        const chosen = read.kind === 'read' ? read.recordings[read.chosen] : undefined;
        return chosen === undefined ? null : { kind: 'recorded', ...chosen, speed: speed.value };
      }
    }
  };
  const datumChoice = (wish: DatumWish): DatumChoice => {
    if (wish.kind !== 'time-hack') return wish;
    return { kind: 'at-time', wallMilliseconds: nowMilliseconds() + wish.afterSeconds * 1000, called: true };
  };
  const obstacle = computed(() => {
    if (parts.writer.value === 'reader') return 'Quillwind is open in another tab, which does the writing: fly there, or close it.';
    const made = planned.value;
    if (made === null) return 'Planning';
    if (!made.ok) return made.reason;
    if (sourceChoice() === null) return 'Choose a recording first.';
    if (shipIndex.value === null) return 'Choose which ship this is.';
    if (datum.value === null) return 'Choose the datum.';
    const setup = flightSetupFromJob(job, made.value.plan, shipIndex.value, { kind: 'first-smoke' }, nowMilliseconds(), overlay.value);
    return setup.ok ? null : setup.reason;
  });

  return {
    job,
    planned,
    forecast,
    source,
    windFromDegrees,
    windKnots,
    skill,
    flownBy,
    speed,
    recording,
    datum,
    shipIndex,
    receiver,
    fieldLetterMetres,
    walkingScale,
    byEar,
    readiness,
    checks,
    learningSwitch,
    obstacle,
    async readRecording(file) {
      recording.value = await recordingFrom(file);
    },
    learnSwitch() {
      endLearning();
      learningSwitch.value = true;
      const end = learnSmokeSwitch(switchPlatform(), (wiring) => {
        learningSwitch.value = false;
        flightDesk.setSwitch({ ...flightDesk.switchSettings.peek(), wiring });
      });
      endLearning = () => {
        learningSwitch.value = false;
        end();
      };
    },
    forgetSwitch() {
      endLearning();
      flightDesk.setSwitch({ ...flightDesk.switchSettings.peek(), wiring: null });
    },
    setSwitchAction(action) {
      flightDesk.setSwitch({ ...flightDesk.switchSettings.peek(), action });
    },
    playTestSignal() {
      voice.unlock();
      // The state turns to on a moment after the touch that lets it.
      setTimeout(voice.tryOut, 400);
    },
    start() {
      const choice = sourceChoice();
      const made = planned.peek();
      const ship = shipIndex.peek();
      const wish = datum.peek();
      if (choice === null || made === null || !made.ok || ship === null || wish === null) return;
      const setup = flightSetupFromJob(job, made.value.plan, ship, datumChoice(wish), nowMilliseconds(), overlay.peek());
      if (!setup.ok) return;
      voice.unlock();
      voiceHandedOver = true;
      const told = { ...setup.setup, readsUntil: readingOf(made.value, calibration.peek()).window.until };
      // A field has no wind.
      const flown = choice.kind === 'walking' ? { ...told, forecastWind: CALM } : told;
      flightDesk.begin({ job, jobFileText: writeJob(job), worldFor: flightWorldFor, setup: flown, source: choice, voice });
      const begun = byEar.peek() ? flightDesk.state.peek() : null;
      if (begun?.kind === 'flying') begun.flight.chooseEars(true);
    },
    end() {
      endLearning();
      endSource();
      readiness.end();
      if (!voiceHandedOver) voice.end();
    },
  };
}

function forecastOf(job: Job): Preflight['forecast'] {
  const { found } = jobAir(job);
  if (!found.ok) return null;
  const { fromRadians, speedMetresPerSecond } = windFromVector(found.wind);
  return { fromDegrees: Math.round(degreesFromRadians(fromRadians)) % 360, knots: Math.round(knotsFromMetresPerSecond(speedMetresPerSecond)) };
}

/** Read off the page, with a timer: a hostile file hangs nothing. */
async function recordingFrom(file: TrackFile): Promise<RecordingState> {
  const { readTrackFile } = await import('../../workers/track-reader-client.ts');
  const result = await readTrackFile(file);
  if (!result.ok) return { kind: 'refused', reason: result.reason };
  const recordings = result.value.tracks.map((track) => ({ name: track.name, fixes: fixesFromTrack(track) }));
  return recordings.length === 0 ? { kind: 'refused', reason: 'The file holds no track.' } : { kind: 'read', recordings, chosen: 0 };
}
