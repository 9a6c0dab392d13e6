import type { ReadonlySignal, Signal } from '@preact/signals';
import type { Lesson } from '../../core/debrief/lessons/lessons.ts';
import type { LearntLesson } from '../../core/debrief/lessons/weigh-lessons.ts';
import type { ShipDebrief } from '../../core/debrief/ship-debrief.ts';
import type { ShipLog } from '../../core/debrief/ship-log.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import type { SeenSmoke } from '../../core/debrief/smoke-intervals.ts';
import type { Job } from '../../core/job/job.ts';
import type { Cues } from '../../core/guidance/cues.ts';
import type { DamagedFlight } from '../../store/flights.ts';
import type { StoredFlight } from '../../store/schema.ts';
import type { TrackFile } from '../../workers/track-reader-client.ts';
import type { FlownEvents } from './flown-events.ts';
import type { ImportedTrack } from './imported-tracks.ts';
import type { ObservedMoment } from './observed.ts';

/** A flight as it is listed; screens know it by this name. */
export type DebriefedFlight = StoredFlight;

/** The flights of a job that can be debriefed. */
export type FlightsState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'ready'; readonly flights: readonly StoredFlight[]; readonly damaged: readonly DamagedFlight[] }
  | { readonly kind: 'failed'; readonly reason: string };

/** A ship on the desk: from this device's own log, or from a track of another recorder. */
export interface DeskShip {
  /** The flight's id, or the track's. */
  readonly key: string;
  readonly name: string;
  readonly kind: 'flight' | 'track';
  readonly log: ShipLog;
  readonly seen: readonly SeenSmoke[];
  /** Null until the log has been replayed. */
  readonly debrief: ShipDebrief | null;
}

/** What was opened last. */
export type OpenState =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'opening'; readonly flightId: string }
  | { readonly kind: 'open'; readonly flight: StoredFlight; readonly job: Job | null; readonly flown: FlownEvents }
  | { readonly kind: 'failed'; readonly flightId: string; readonly reason: string };

/** Something just done that can be undone. */
export interface DoneAction {
  readonly words: string;
  undo(): Promise<void>;
}

/** What a person should read once; it changes nothing. */
export interface DeskNotice {
  readonly kind: 'refused' | 'imported' | 'failed';
  readonly lines: readonly string[];
}

/** Everything the Debrief screen of one job reads and does. */
export interface DebriefDesk {
  readonly job: ReadonlySignal<Job | null>;
  readonly flights: ReadonlySignal<FlightsState>;
  readonly state: ReadonlySignal<OpenState>;
  readonly ships: ReadonlySignal<readonly DeskShip[]>;
  readonly tracks: ReadonlySignal<readonly ImportedTrack[]>;
  /** The flight each track was recorded in, by the track's id; null for none. Those of another flight are not among `ships`. */
  readonly trackFlights: ReadonlySignal<ReadonlyMap<string, string | null>>;
  /** How far the replay of the open flight has come; null when none is running. */
  readonly replayFraction: ReadonlySignal<number | null>;
  /** Why the replay broke off; null when it did not. */
  readonly replayFault: ReadonlySignal<string | null>;
  readonly observed: ReadonlySignal<readonly ObservedMoment[]>;
  readonly lessons: ReadonlySignal<readonly Lesson[]>;
  /** The job's plan, all ships; null until there is one. */
  readonly planned: ReadonlySignal<PlannedJob | null>;
  /** How long the text would have read as planned; null until there is a plan. */
  readonly plannedReading: ReadonlySignal<ReadingWindow | null>;
  readonly calibration: ReadonlySignal<SmokeCalibration | null>;
  readonly done: ReadonlySignal<DoneAction | null>;
  readonly notice: ReadonlySignal<DeskNotice | null>;
  dismissNotice(): void;
  refresh(): Promise<void>;
  open(flightId: string): Promise<void>;
  /** The cues of the open flight as they were shown; null outside of it and where the replay has not come yet. */
  cuesAt(utcMilliseconds: number): Promise<Cues | null>;
  /** Smoke marked by hand on a ship's time line. */
  markSeen(shipKey: string, seen: readonly SeenSmoke[], words: string): Promise<void>;
  /** Takes all files or none. */
  importTracks(files: readonly TrackFile[]): Promise<void>;
  assignTrack(trackId: string, shipIndex: number | null): Promise<void>;
  removeTrack(trackId: string): Promise<void>;
  /** What real flights taught so far, oldest first. */
  readonly learnt: ReadonlySignal<readonly LearntLesson[]>;
  /** Smoke oil left in the tank after the open flight, as somebody read it; null while nobody has. */
  readonly oilLeftPounds: Signal<number | null>;
  /** Weighs a lesson of a real flight with earlier ones, into the ship's settings in the job, the kept ship and the smoke's. */
  carry(lesson: Lesson): Promise<void>;
  dispose(): void;
}
