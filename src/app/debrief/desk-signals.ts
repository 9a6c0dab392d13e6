import { type Signal, signal } from '@preact/signals';
import type { LearntLesson } from '../../core/debrief/lessons/weigh-lessons.ts';
import type { Replayed } from '../../core/debrief/replay.ts';
import type { ShipLog } from '../../core/debrief/ship-log.ts';
import type { SeenSmoke } from '../../core/debrief/smoke-intervals.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import type { ObserverLog } from '../../core/wire/observer-log.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import type { DeskNotice, DoneAction, FlightsState, OpenState } from './desk-types.ts';
import type { ImportedTrack } from './imported-tracks.ts';

/** What a desk has read and what it has been told; everything else on it follows from these. */
export interface DeskSignals {
  readonly flights: Signal<FlightsState>;
  readonly state: Signal<OpenState>;
  /** The open flight's own log, and its replay once that has come. */
  readonly own: Signal<{ readonly log: ShipLog; readonly replayed: Replayed | null } | null>;
  /** Smoke marked by hand on the open flight. */
  readonly ownSeen: Signal<readonly SeenSmoke[]>;
  readonly tracks: Signal<readonly ImportedTrack[]>;
  readonly planned: Signal<PlannedJob | null>;
  readonly replayFraction: Signal<number | null>;
  readonly replayFault: Signal<string | null>;
  readonly observerLogs: Signal<readonly ObserverLog[]>;
  readonly calibration: Signal<SmokeCalibration | null>;
  readonly learnt: Signal<readonly LearntLesson[]>;
  readonly oilLeftPounds: Signal<number | null>;
  readonly done: Signal<DoneAction | null>;
  readonly notice: Signal<DeskNotice | null>;
}

/** A desk on which nothing lies yet. */
export function createDeskSignals(): DeskSignals {
  return {
    flights: signal({ kind: 'loading' }),
    state: signal({ kind: 'nothing' }),
    own: signal(null),
    ownSeen: signal([]),
    tracks: signal([]),
    planned: signal(null),
    replayFraction: signal(null),
    replayFault: signal(null),
    observerLogs: signal([]),
    calibration: signal(null),
    learnt: signal([]),
    oilLeftPounds: signal(null),
    done: signal(null),
    notice: signal(null),
  };
}

/** Says on the desk what could not be done, and why the store refused. */
export function sayFailed({ notice }: Pick<DeskSignals, 'notice'>, what: string, error: unknown): void {
  notice.value = { kind: 'failed', lines: [`${what}. ${storeFaultFrom(error).message}`] };
}
