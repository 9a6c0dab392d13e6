import { createReplay, type Replay, type Replayed } from '../core/debrief/replay.ts';
import type { Cues } from '../core/guidance/cues.ts';
import type { FlightEvent } from '../core/guidance/flight-event.ts';
import { nextTask } from './next-task.ts';

/** What the replay's worker answers to. One log at a time. */
export interface ReplayService {
  /** Takes a log's events in parts, in order: one message of a long log would hold the page up. */
  take(events: readonly FlightEvent[]): void;
  /** Replays what was taken, to the end; `null` when disposed of meanwhile. */
  run(onProgress: (fraction: number) => void): Promise<Replayed | null>;
  /** The cues as they were shown at a flight time; null where the replay has not come yet. */
  cuesAt(atSeconds: number): Cues | null;
  stop(): void;
}

/** A worker hears nothing while it computes: it breathes this often. */
const BREATH_MILLISECONDS = 12;
const EVENTS_AT_ONCE = 16;

/** Makes the service; its state is the log and how far it has been replayed. */
export function createReplayService(): ReplayService {
  const events: FlightEvent[] = [];
  let replay: Replay | null = null;
  let stopped = false;
  return {
    take(more) {
      for (const event of more) events.push(event);
    },
    async run(onProgress) {
      const running = createReplay(events);
      replay = running;
      while (running.doneCount() < running.eventCount) {
        const breathedAt = performance.now();
        while (performance.now() - breathedAt < BREATH_MILLISECONDS && running.doneCount() < running.eventCount) running.advance(EVENTS_AT_ONCE);
        onProgress(running.doneCount() / running.eventCount);
        await nextTask();
        if (stopped) return null;
      }
      return running.replayed();
    },
    cuesAt: (atSeconds) => replay?.cuesAt(atSeconds) ?? null,
    stop() {
      stopped = true;
    },
  };
}
