import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import type { FlightSetup } from '../../core/guidance/flight-setup.ts';
import { initialState } from '../../core/guidance/guidance-state.ts';
import type { Database } from '../../store/database.ts';
import { openFlightLog } from '../../store/flight-log.ts';
import { saveFlight } from '../../store/flights.ts';
import type { FlightKind, StoredFlight } from '../../store/schema.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import { FORGOTTEN_MILLISECONDS, type FlightWatch } from '../flight-watch.ts';
import { newId } from '../new-id.ts';
import type { StorageWatch } from '../storage-watch.ts';
import { keepCheckpoints, readCheckpoint } from './checkpoint.ts';
import type { SourceChoice } from './flight-choices.ts';
import { type FlightHere, flyHere } from './flight-here.ts';
import { createPatientLog } from './patient-log.ts';
import { flownAgain, resumptionOf } from './resume-flight.ts';
import type { FlightVoice } from './voice/speaker-types.ts';
import { sourceFromText, sourceTextFor } from './stored-source.ts';
import { worldsToResume } from './world-for.ts';
import type { WorldFor } from './world-types.ts';
import { NO_SWITCH, readSwitchSettings, saveSwitchSettings, type SwitchSettings } from './switch-settings.ts';

/** Whether this page flies. */
export type DeskState =
  /** The store has not said yet whether a flight was broken off. */
  | { readonly kind: 'asking' }
  | { readonly kind: 'grounded' }
  | { readonly kind: 'flying'; readonly flight: FlightHere }
  /** Another tab writes, and flies. */
  | { readonly kind: 'elsewhere'; readonly jobId: string }
  /** A flight was broken off and its log cannot be gone on with. */
  | { readonly kind: 'broken'; readonly jobId: string; readonly name: string; readonly reason: string };

export interface BeginFlight {
  readonly job: Job;
  /** The job's file as it is now: later edits do not reach a flight. */
  readonly jobFileText: string;
  readonly setup: FlightSetup;
  readonly source: SourceChoice;
  readonly worldFor: WorldFor;
  /** Made ready by the touch that begins the flight. */
  readonly voice: FlightVoice;
}

/** Begins flights, goes on with those that a kill broke off, and ends them. */
export interface FlightDesk {
  readonly state: ReadonlySignal<DeskState>;
  readonly switchSettings: ReadonlySignal<SwitchSettings>;
  setSwitch(settings: SwitchSettings): void;
  /** Waits for nothing: the first cue does not depend on the storage. */
  begin(flight: BeginFlight): void;
  /** Ends the flight of this page, or gives a broken one up. */
  leave(): void;
  /** Waits no longer for a store that does not answer; what it says later is heard when the page is opened again. */
  goWithoutStore(): void;
}

export interface FlightDeskParts {
  readonly database: Database;
  readonly flights: FlightWatch;
  readonly storage: Pick<StorageWatch, 'writer'>;
  readonly nowMilliseconds: () => number;
  /** Shows the Write screen of a job. */
  readonly showWrite: (jobId: string) => void;
}

const KINDS: Readonly<Record<SourceChoice['kind'], FlightKind>> = { device: 'flight', rehearsal: 'rehearsal', walking: 'rehearsal', recorded: 'replay' };
const RETRY_MILLISECONDS = 2_000;

/** The one desk of a page; it asks the store at once for a flight to go on with. */
export function createFlightDesk({ database, flights, storage, nowMilliseconds, showWrite }: FlightDeskParts): FlightDesk {
  const state = signal<DeskState>({ kind: 'asking' });
  const switchSettings = signal(NO_SWITCH);
  const readOnly = computed(() => storage.writer.value === 'reader');
  let endWatch = (): void => {};
  let endCheckpoints = (): void => {};
  void readSwitchSettings(database).then((stored) => {
    switchSettings.value = stored;
  });

  /** Saves as often as it takes: a flight must be found again after a kill, and its end must stick. */
  async function keepFlight(flight: StoredFlight): Promise<void> {
    for (;;) {
      try {
        await saveFlight(database, flight);
        return;
      } catch {
        await new Promise((resolve) => setTimeout(resolve, RETRY_MILLISECONDS));
      }
    }
  }
  let stored: StoredFlight | null = null;
  let kept: Promise<void> = Promise.resolve();

  function take(flight: FlightHere, found: StoredFlight): void {
    endCheckpoints = keepCheckpoints(database, found, flight.state, flight.log);
    state.value = { kind: 'flying', flight };
  }

  async function resume(found: StoredFlight): Promise<void> {
    const source = sourceFromText(found.setupText);
    try {
      const checkpoint = await readCheckpoint(database, found.id);
      // Hours of rows before the checkpoint need not be read before the cue.
      const { log, reading } = await openFlightLog(database, found.id, checkpoint?.sequence);
      const again = flownAgain(reading, checkpoint);
      if (source === null || again.state.phase === 'idle') {
        stored = found;
        state.value = {
          kind: 'broken',
          jobId: found.jobId,
          name: found.name,
          reason: source === null ? 'A recording is not gone on with.' : 'Its log holds no beginning.',
        };
        return;
      }
      const worldFor = await worldsToResume(source);
      stored = found;
      endWatch = flights.begin();
      const flight = flyHere({
        flightId: found.id,
        setup: again.state.flight.setup,
        source,
        switchSettings: switchSettings.peek(),
        log: createPatientLog(async () => log),
        readOnly,
        before: again.state,
        first: { kind: 'flightResumed' },
        resumption: resumptionOf(again),
        worldFor,
        voice: null,
      });
      take(flight, found);
      showWrite(found.jobId);
    } catch (error) {
      stored = found;
      state.value = { kind: 'broken', jobId: found.jobId, name: found.name, reason: storeFaultFrom(error).message };
    }
  }

  let asking = false;
  effect(() => {
    const writer = storage.writer.value;
    const asked = flights.asked.value;
    const found = flights.stored.value;
    if (writer === 'asking' || !asked || asking) return;
    const { kind } = state.peek();
    if (kind !== 'asking' && kind !== 'elsewhere') return;
    if (found === null || nowMilliseconds() - found.startedAtMilliseconds > FORGOTTEN_MILLISECONDS) state.value = { kind: 'grounded' };
    else if (writer === 'reader') state.value = { kind: 'elsewhere', jobId: found.jobId };
    else {
      asking = true;
      void resume(found).finally(() => (asking = false));
    }
  });

  return {
    state,
    switchSettings,
    setSwitch(settings) {
      switchSettings.value = settings;
      // A wiring that cannot be kept still works for this flight.
      saveSwitchSettings(database, settings).catch(() => {});
    },
    begin({ job, jobFileText, setup, source, voice, worldFor }) {
      if (state.peek().kind === 'flying') throw new RangeError('a flight is in progress on this page');
      const flightId = newId();
      const begun: StoredFlight = {
        id: flightId,
        jobId: job.id,
        name: job.name,
        kind: KINDS[source.kind],
        startedAtMilliseconds: nowMilliseconds(),
        endedAtMilliseconds: null,
        jobFileText,
        setupText: sourceTextFor(source, setup.shipName),
      };
      stored = begun;
      kept = keepFlight(begun);
      endWatch = flights.begin();
      take(
        flyHere({
          flightId,
          setup,
          source,
          switchSettings: switchSettings.peek(),
          log: createPatientLog(async () => (await openFlightLog(database, flightId)).log),
          readOnly,
          before: initialState,
          first: { kind: 'flightStarted', setup },
          resumption: null,
          worldFor,
          voice,
        }),
        begun,
      );
    },
    goWithoutStore() {
      if (state.peek().kind === 'asking') state.value = { kind: 'grounded' };
    },
    leave() {
      const { value: now } = state;
      if (now.kind === 'flying') now.flight.end();
      const ended = stored;
      stored = null;
      state.value = { kind: 'grounded' };
      if (ended !== null) {
        const end: StoredFlight = { ...ended, endedAtMilliseconds: nowMilliseconds() };
        kept = kept.then(() => keepFlight(end));
        void kept.then(() => flights.refresh());
      }
      endCheckpoints();
      endWatch();
      endWatch = () => {};
    },
  };
}
