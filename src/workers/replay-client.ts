import { proxy } from 'comlink';
import type { Replayed } from '../core/debrief/replay.ts';
import type { Cues } from '../core/guidance/cues.ts';
import type { FlightEvent } from '../core/guidance/flight-event.ts';
import { type OffPage, startOffPage } from './off-page.ts';

/** A log being replayed off the page. */
export interface ReplayClient {
  /** Replays the log; null when disposed of meanwhile. Rejects when the worker breaks off. */
  run(events: readonly FlightEvent[], onProgress: (fraction: number) => void): Promise<Replayed | null>;
  /** The cues as they were shown at a flight time; null where the replay has not come yet, and after a dispose. */
  cuesAt(atSeconds: number): Promise<Cues | null>;
  dispose(): void;
}

/** So many events cross in about the time of a frame. */
const EVENTS_IN_A_MESSAGE = 4000;

/** A client of a worker, started unless one is handed in. Disposing of the client ends it. */
export function startReplay({ services, broken, end }: OffPage = startOffPage('replay')): ReplayClient {
  const { replay } = services;
  let disposed = false;
  return {
    async run(events, onProgress) {
      for (let from = 0; from < events.length && !disposed; from += EVENTS_IN_A_MESSAGE) {
        await Promise.race([replay.take(events.slice(from, from + EVENTS_IN_A_MESSAGE)), broken]);
      }
      if (disposed) return null;
      let ended = false;
      // A report may still be on its way when the answer is there.
      const report = proxy((fraction: number) => {
        if (!disposed && !ended) onProgress(fraction);
      });
      try {
        return await Promise.race([replay.run(report), broken]);
      } finally {
        ended = true;
      }
    },
    cuesAt: (atSeconds) => (disposed ? Promise.resolve(null) : Promise.race([replay.cuesAt(atSeconds), broken])),
    dispose() {
      disposed = true;
      void replay.stop();
      end();
    },
  };
}
