import { batch, computed, effect, signal } from '@preact/signals';
import { type Lesson, lessonsFrom } from '../../core/debrief/lessons/lessons.ts';
import { oilFlowLesson } from '../../core/debrief/lessons/oil-flow.ts';
import type { LearntLesson } from '../../core/debrief/lessons/weigh-lessons.ts';
import { logbookEntry } from '../../core/debrief/logbook.ts';
import type { Replayed } from '../../core/debrief/replay.ts';
import { debriefShip } from '../../core/debrief/ship-debrief.ts';
import { type ShipLog, shipLog } from '../../core/debrief/ship-log.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import type { SeenSmoke } from '../../core/debrief/smoke-intervals.ts';
import { ratedEnds } from '../../core/debrief/lessons/spreading.ts';
import type { Job } from '../../core/job/job.ts';
import type { ObserverLog } from '../../core/wire/observer-log.ts';
import { parseJob } from '../../core/job/parse-job.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { readingOf } from '../../core/sky/reading-of.ts';
import type { Database } from '../../store/database.ts';
import { readFlights } from '../../store/flights.ts';
import { addObserverEntries, readObserverLogs } from '../../store/observer-logs.ts';
import { readEndedLog } from '../../store/packed-log.ts';
import { readLog } from '../../store/read-log.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import { type ReplayClient, startReplay as startReplayOffPage } from '../../workers/replay-client.ts';
import { type Planner, planOrReason } from '../planner.ts';
import type { JobShelf } from '../jobs/shelf-types.ts';
import type { DebriefDesk, DeskNotice, DeskShip, DoneAction, FlightsState, OpenState } from './desk-types.ts';
import { type FlightSpan, flightOfTrack } from './flight-of-track.ts';
import { flownEventsFrom } from './flown-events.ts';
import { type ImportedTrack, readImportedTracks, saveImportedTracks } from './imported-tracks.ts';
import { saveLogbookEntry } from './logbook-shelf.ts';
import { nextPicture } from './next-picture.ts';
import { type ObservedMoment, observedMoments, ratingsOf } from './observed.ts';
import { importedLogWords, readChosenFiles } from './read-chosen-files.ts';
import { readSeenMarks, saveSeenMarks } from './seen-marks.ts';
import { readSmokeCalibration } from '../smoke-settings.ts';
import { readLearnt } from '../kept/learnt-lessons.ts';
import { carryIntoKept } from './carry-lesson.ts';
import { createTrackLogs } from './track-logs.ts';

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
  const flights = signal<FlightsState>({ kind: 'loading' });
  const state = signal<OpenState>({ kind: 'nothing' });
  const own = signal<{ readonly log: ShipLog; readonly replayed: Replayed | null } | null>(null);
  const ownSeen = signal<readonly SeenSmoke[]>([]);
  const tracks = signal<readonly ImportedTrack[]>([]);
  const planned = signal<PlannedJob | null>(null);
  const replayFraction = signal<number | null>(null);
  const replayFault = signal<string | null>(null);
  const observerLogs = signal<readonly ObserverLog[]>([]);
  const calibration = signal<SmokeCalibration | null>(null);
  const learnt = signal<readonly LearntLesson[]>([]);
  const oilLeftPounds = signal<number | null>(null);
  const done = signal<DoneAction | null>(null);
  const notice = signal<DeskNotice | null>(null);
  let replay: ReplayClient | null = null;
  let disposed = false;

  const storedJob = computed((): Job | null => (jobs.state.value.kind === 'loading' ? null : jobs.find(jobId)));
  const job = computed((): Job | null => {
    const opened = state.value;
    return (opened.kind === 'open' ? opened.job : null) ?? storedJob.value;
  });

  const trackLog = createTrackLogs();
  const openSpan = computed((): FlightSpan | null => {
    const opened = state.value;
    if (opened.kind !== 'open' || own.value === null) return null;
    const { track, zeroMilliseconds } = own.value.log;
    const atMilliseconds = (seconds: number | undefined): number => zeroMilliseconds + (seconds ?? 0) * 1000;
    return { flightId: opened.flight.id, fromMilliseconds: atMilliseconds(track.atSeconds[0]), toMilliseconds: atMilliseconds(track.atSeconds.at(-1)) };
  });
  const flightSpans = computed((): readonly FlightSpan[] =>
    flights.value.kind !== 'ready'
      ? []
      : flights.value.flights.map(({ id, startedAtMilliseconds, endedAtMilliseconds }) => ({
          flightId: id,
          fromMilliseconds: startedAtMilliseconds,
          toMilliseconds: endedAtMilliseconds ?? Infinity,
        })),
  );
  const flightOf = ({ track: { points } }: ImportedTrack): string | null => {
    const [first, last] = [points[0], points.at(-1)];
    if (first === undefined || last === undefined) return null;
    return flightOfTrack({ fromMilliseconds: first.timeMilliseconds, toMilliseconds: last.timeMilliseconds }, openSpan.value, flightSpans.value);
  };
  const trackFlights = computed((): ReadonlyMap<string, string | null> => new Map(tracks.value.map((imported) => [imported.id, flightOf(imported)])));
  /** A track of no flight stands beside each; one of a flight beside that alone. */
  const ownsTrack = (flightId: string | null): boolean => flightId === null || openSpan.value === null || flightId === openSpan.value.flightId;
  const ownShip = computed((): DeskShip | null => {
    const opened = state.value;
    const it = own.value;
    if (opened.kind !== 'open' || it === null) return null;
    const debrief = it.replayed === null ? null : debriefShip(it.log, it.replayed, ownSeen.value);
    return { key: opened.flight.id, name: it.log.setup.shipName, kind: 'flight', log: it.log, seen: ownSeen.value, debrief };
  });
  const ships = computed((): readonly DeskShip[] => {
    const first = ownShip.value;
    const others = tracks.value
      .filter(({ id }) => ownsTrack(trackFlights.value.get(id) ?? null))
      .map((imported): DeskShip => {
        const log = trackLog(imported, job.value, planned.value?.plan ?? null);
        return { key: imported.id, name: imported.track.name, kind: 'track', log, seen: imported.seen, debrief: debriefShip(log, null, imported.seen) };
      });
    return first === null ? others : [first, ...others];
  });
  const observed = computed((): readonly ObservedMoment[] => {
    const [first] = ships.value;
    if (first === undefined) return [];
    const { log, debrief } = first;
    const toUtc = (seconds: number): number => log.zeroMilliseconds + seconds * 1000;
    return observedMoments(
      observerLogs.value,
      debrief === null ? null : toUtc(debrief.datumSeconds),
      toUtc(log.track.atSeconds[0] ?? 0),
      toUtc(log.track.atSeconds.at(-1) ?? 0),
    );
  });
  const lessons = computed((): readonly Lesson[] => {
    const first = ownShip.value?.debrief;
    if (first === undefined || first === null) return [];
    const ratings = ratingsOf(observed.value, first.log.zeroMilliseconds + first.datumSeconds * 1000);
    const openJob = job.value;
    const found = lessonsFrom(first, ratedEnds(ratings), openJob === null ? null : jobAir(openJob).shear);
    const ship = openJob?.ships[first.log.setup.shipIndex];
    const left = oilLeftPounds.value;
    const flow = ship === undefined || left === null ? null : oilFlowLesson(first, ship.smokeOilPounds, left, ship.smokeOilPoundsPerMinute);
    return flow === null ? found : [...found, flow];
  });

  /** A flight that was judged goes into the logbook, anew when what is known of it changes. */
  const endLogbook = effect(() => {
    const opened = state.value;
    const debrief = ownShip.value?.debrief;
    if (opened.kind !== 'open' || debrief === undefined || debrief === null) return;
    const { flight } = opened;
    const ratings = ratingsOf(observed.value, debrief.log.zeroMilliseconds + debrief.datumSeconds * 1000);
    const entry = logbookEntry(debrief, ratings, {
      flightId: flight.id,
      jobId: flight.jobId,
      name: flight.name,
      text: opened.job?.text ?? '',
      kind: flight.kind,
      startedAtMilliseconds: flight.startedAtMilliseconds,
    });
    saveLogbookEntry(database, entry).catch(() => {});
  });
  /** What was planned stands beside what was flown, and tells the strokes of an imported ship. */
  const endPlanning = effect(() => {
    const openJob = job.value;
    if (openJob === null || planned.peek()?.job === openJob) return;
    void planOrReason(planner, openJob).then((made) => {
      if (!disposed && job.peek() === openJob) planned.value = made.ok ? made.value : null;
    });
  });

  function fail(what: string, error: unknown): void {
    notice.value = { kind: 'failed', lines: [`${what}. ${storeFaultFrom(error).message}`] };
  }

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
        if (imported.damagedCount > 0)
          notice.value = {
            kind: 'failed',
            lines: [`${imported.damagedCount} imported ${imported.damagedCount === 1 ? 'track is' : 'tracks are'} damaged and cannot be shown.`],
          };
      });
    } catch (error) {
      flights.value = { kind: 'failed', reason: storeFaultFrom(error).message };
    }
  }

  async function open(flightId: string): Promise<void> {
    replay?.dispose();
    replay = null;
    const opening = { kind: 'opening', flightId } as const;
    batch(() => {
      state.value = opening;
      own.value = null;
      ownSeen.value = [];
      oilLeftPounds.value = null;
      replayFraction.value = null;
      replayFault.value = null;
      done.value = null;
    });
    try {
      const listed = flights.peek();
      const flight = listed.kind === 'ready' ? listed.flights.find(({ id }) => id === flightId) : undefined;
      if (flight === undefined) throw new RangeError(`no flight ${flightId}`);
      const [{ reading, pack }, seen] = await Promise.all([
        flight.endedAtMilliseconds === null ? readLog(database, flightId).then((rows) => ({ reading: rows, pack: null })) : readEndedLog(database, flightId),
        readSeenMarks(database, flightId),
      ]);
      // Another flight may have been chosen while this one was read.
      if (disposed || state.peek() !== opening) return;
      const flown = flownEventsFrom(reading);
      const log = shipLog(flown.events);
      if (log === null) {
        state.value = {
          kind: 'failed',
          flightId,
          reason: flown.events.length === 0 ? 'The log of this flight is empty.' : 'The log of this flight holds no beginning.',
        };
        return;
      }
      const parsed = parseJob(flight.jobFileText);
      batch(() => {
        state.value = { kind: 'open', flight, job: parsed.ok ? parsed.value : null, flown };
        own.value = { log, replayed: null };
        ownSeen.value = seen;
        replayFraction.value = 0;
      });
      void runReplay(log);
      if (pack !== null) {
        await nextPicture();
        const now = state.peek();
        if (!disposed && now.kind === 'open' && now.flight === flight) await pack();
      }
    } catch (error) {
      const now = state.peek();
      if (now === opening || (now.kind === 'open' && now.flight.id === flightId))
        state.value = { kind: 'failed', flightId, reason: storeFaultFrom(error).message };
    }
  }

  async function runReplay(log: ShipLog): Promise<void> {
    const client = startReplay();
    replay = client;
    try {
      const replayed = await client.run(log.events, (fraction) => {
        if (replay === client) replayFraction.value = fraction;
      });
      if (replayed === null || replay !== client) return;
      batch(() => {
        own.value = { log, replayed };
        replayFraction.value = null;
      });
    } catch (error) {
      if (replay !== client) return;
      batch(() => {
        replayFraction.value = null;
        replayFault.value = error instanceof Error ? error.message : String(error);
      });
    }
  }

  async function putTracks(next: readonly ImportedTrack[], words: string | null): Promise<void> {
    const before = tracks.peek();
    try {
      await saveImportedTracks(database, jobId, next);
      tracks.value = next;
      if (words !== null) done.value = { words, undo: () => putTracks(before, null).then(() => void (done.value = null)) };
    } catch (error) {
      fail('The tracks were not stored; nothing was changed', error);
    }
  }

  const desk: DebriefDesk = {
    job,
    flights,
    state,
    ships,
    tracks,
    trackFlights,
    replayFraction,
    replayFault,
    observed,
    lessons,
    plannedReading: computed(() => (planned.value === null ? null : readingOf(planned.value, calibration.value).window)),
    calibration,
    done,
    notice,
    dismissNotice() {
      notice.value = null;
    },
    refresh,
    open,
    async cuesAt(utcMilliseconds) {
      const it = own.peek();
      if (it === null || replay === null) return null;
      return replay.cuesAt((utcMilliseconds - it.log.zeroMilliseconds) / 1000).catch(() => null);
    },
    async markSeen(shipKey, seen, words) {
      const sorted = seen.toSorted((one, other) => one.onSeconds - other.onSeconds);
      const imported = tracks.peek().find(({ id }) => id === shipKey);
      if (imported !== undefined) {
        await putTracks(
          tracks.peek().map((track) => (track === imported ? { ...track, seen: sorted } : track)),
          words,
        );
        return;
      }
      const before = ownSeen.peek();
      try {
        await saveSeenMarks(database, shipKey, sorted);
        ownSeen.value = sorted;
        done.value = {
          words,
          async undo() {
            await saveSeenMarks(database, shipKey, before).catch((error: unknown) => fail('The marks were not stored', error));
            ownSeen.value = before;
            done.value = null;
          },
        };
      } catch (error) {
        fail('The mark was not stored', error);
      }
    },
    async importTracks(chosen) {
      const read = await readChosenFiles(jobId, chosen);
      if (!read.ok) {
        notice.value = { kind: 'refused', lines: read.reasons };
        return;
      }
      if (read.logs.length > 0) {
        try {
          for (const log of read.logs) await addObserverEntries(database, log);
        } catch (error) {
          return fail('The observer\u2019s log was not stored', error);
        }
        await refresh();
        notice.value = { kind: 'imported', lines: read.logs.map(importedLogWords) };
      }
      const count = read.tracks.length;
      if (count === 0) return;
      // What was flown in another flight is looked at there.
      const flightIds = new Set(read.tracks.map(flightOf));
      const [flightId] = flightIds;
      const elsewhere = flightIds.size === 1 && flightId != null && !ownsTrack(flightId);
      if (elsewhere) await open(flightId);
      const words = `${count === 1 ? 'A track was' : `${count} tracks were`} imported`;
      await putTracks([...tracks.peek(), ...read.tracks], elsewhere ? `${words}; the flight of that hour is open now.` : `${words}.`);
      if (read.warnings.length > 0) notice.value = { kind: 'imported', lines: read.warnings };
    },
    assignTrack: (trackId, shipIndex) =>
      putTracks(
        tracks.peek().map((track) => (track.id === trackId ? { ...track, shipIndex } : track)),
        null,
      ),
    removeTrack(trackId) {
      const gone = tracks.peek().find(({ id }) => id === trackId);
      return putTracks(
        tracks.peek().filter((track) => track !== gone),
        `${gone?.track.name ?? 'The track'} was removed.`,
      );
    },
    learnt,
    oilLeftPounds,
    carry: (lesson) => carryLesson(lesson),
    dispose() {
      disposed = true;
      replay?.dispose();
      endLogbook();
      endPlanning();
    },
  };

  /** Weighs the lesson with those of earlier flights and puts what they teach together into the job, the kept ship or the smoke. */
  async function carryLesson(lesson: Lesson): Promise<void> {
    const opened = state.peek();
    const before = storedJob.peek();
    const shipIndex = own.peek()?.log.setup.shipIndex ?? 0;
    const ship = before?.ships[shipIndex];
    if (opened.kind !== 'open' || opened.flight.kind !== 'flight') {
      notice.value = { kind: 'failed', lines: ['A rehearsal or a replay teaches nothing that is kept: only what was really flown does.'] };
      return;
    }
    if (before === null || ship === undefined) {
      notice.value = { kind: 'failed', lines: ['The job of this flight is no longer stored, so there is nothing to carry the lesson into.'] };
      return;
    }
    try {
      const carried = await carryIntoKept({ database, jobs, before, shipIndex, lesson, flight: opened.flight });
      batch(() => {
        learnt.value = carried.learnt;
        calibration.value = carried.calibration;
        done.value = {
          words: carried.words,
          async undo() {
            try {
              const back = await carried.undo();
              learnt.value = back.learnt;
              calibration.value = back.calibration;
            } catch (error) {
              fail('The settings were not put back', error);
            }
            done.value = null;
          },
        };
      });
    } catch (error) {
      fail('The lesson was not carried over', error);
    }
  }

  void refresh().then(() => {
    const listed = flights.peek();
    const newest = listed.kind === 'ready' ? listed.flights[0] : undefined;
    if (newest !== undefined && state.peek().kind === 'nothing' && !disposed) return open(newest.id);
    return undefined;
  });
  return desk;
}
