import { batch, computed, effect } from '@preact/signals';
import { logbookEntry } from '../../core/debrief/logbook.ts';
import type { Job } from '../../core/job/job.ts';
import { readingOf } from '../../core/sky/reading-of.ts';
import type { Database } from '../../store/database.ts';
import { readFlights } from '../../store/flights.ts';
import { readObserverLogs } from '../../store/observer-logs.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import { type ReplayClient, startReplay as startReplayOffPage } from '../../workers/replay-client.ts';
import type { JobShelf } from '../jobs/shelf-types.ts';
import { readLearnt } from '../kept/learnt-lessons.ts';
import { type Planner, planOrReason } from '../planner.ts';
import { readSmokeCalibration } from '../smoke-settings.ts';
import { createDeskLessons } from './desk-lessons.ts';
import { createDeskShips } from './desk-ships.ts';
import { createDeskSignals } from './desk-signals.ts';
import { createDeskTracks } from './desk-tracks.ts';
import type { DebriefDesk } from './desk-types.ts';
import { readImportedTracks } from './imported-tracks.ts';
import { saveLogbookEntry } from './logbook-shelf.ts';
import { observedOf, ratingsOf } from './observed.ts';
import { createFlightOpener } from './open-flight.ts';

export interface DebriefDeskParts {
  readonly database: Database;
  readonly jobs: Pick<JobShelf, 'find' | 'save' | 'state'>;
  readonly jobId: string;
  readonly planner: Planner;
  /** Begins a replay off the page. */
  readonly startReplay?: () => ReplayClient;
}

/** Opens the desk of a job; it begins to read at once, and opens the newest flight. */
export function createDebriefDesk({ database, jobs, jobId, planner, startReplay = startReplayOffPage }: DebriefDeskParts): DebriefDesk {
  const signals = createDeskSignals();
  const { flights, state, tracks, planned, observerLogs, calibration, learnt, notice } = signals;
  let disposed = false;

  const storedJob = computed((): Job | null => (jobs.state.value.kind === 'loading' ? null : jobs.find(jobId)));
  const job = computed((): Job | null => (state.value.kind === 'open' ? state.value.job : null) ?? storedJob.value);
  const opener = createFlightOpener(database, signals, startReplay);
  const ships = createDeskShips(signals, job);
  const observed = computed(() => observedOf(observerLogs.value, ships.ships.value[0]));
  const lessons = createDeskLessons({ database, jobs, job, storedJob, ownShip: ships.ownShip, observed }, signals);

  /** A flight that was judged goes into the logbook, anew when what is known of it changes. */
  const endLogbook = effect(() => {
    const opened = state.value;
    const debrief = ships.ownShip.value?.debrief ?? null;
    if (opened.kind !== 'open' || debrief === null) return;
    const { id, jobId: flownJobId, name, kind, startedAtMilliseconds } = opened.flight;
    const ratings = ratingsOf(observed.value, debrief.log.zeroMilliseconds + debrief.datumSeconds * 1000);
    const text = opened.job?.text ?? '';
    saveLogbookEntry(database, logbookEntry(debrief, ratings, { flightId: id, jobId: flownJobId, name, text, kind, startedAtMilliseconds })).catch(() => {});
  });
  /** What was planned stands beside what was flown, and tells the strokes of an imported ship. */
  const endPlanning = effect(() => {
    const openJob = job.value;
    if (openJob === null || planned.peek()?.job === openJob) return;
    void planOrReason(planner, openJob, database).then((made) => {
      if (!disposed && job.peek() === openJob) planned.value = made.ok ? made.value : null;
    });
  });

  async function refresh(): Promise<void> {
    try {
      const [reading, imported, logs, smoke, taught] = await Promise.all([
        readFlights(database),
        readImportedTracks(database, jobId),
        readObserverLogs(database, jobId),
        readSmokeCalibration(database),
        readLearnt(database),
      ]);
      batch(() => {
        flights.value = { kind: 'ready', flights: reading.flights.filter((flight) => flight.jobId === jobId), damaged: reading.damaged };
        tracks.value = imported.tracks;
        observerLogs.value = logs.logs;
        calibration.value = smoke;
        learnt.value = taught;
        if (imported.damagedCount > 0) {
          const lines = [`${imported.damagedCount} imported ${imported.damagedCount === 1 ? 'track is' : 'tracks are'} damaged and cannot be shown.`];
          notice.value = { kind: 'failed', lines };
        }
      });
    } catch (error) {
      flights.value = { kind: 'failed', reason: storeFaultFrom(error).message };
    }
  }

  void refresh().then(() => {
    const listed = flights.peek();
    const newest = listed.kind === 'ready' ? listed.flights[0] : undefined;
    if (newest !== undefined && state.peek().kind === 'nothing' && !disposed) return opener.open(newest.id);
    return undefined;
  });

  return {
    ...signals,
    ...createDeskTracks({ database, jobId }, signals, ships, { open: opener.open, refresh }),
    ...lessons,
    job,
    ships: ships.ships,
    trackFlights: ships.trackFlights,
    observed,
    plannedReading: computed(() => (planned.value === null ? null : readingOf(planned.value, calibration.value).window)),
    dismissNotice() {
      notice.value = null;
    },
    refresh,
    open: opener.open,
    cuesAt: opener.cuesAt,
    dispose() {
      disposed = true;
      opener.dispose();
      endLogbook();
      endPlanning();
    },
  };
}
