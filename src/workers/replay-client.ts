import { type Endpoint, proxy, releaseProxy, wrap } from 'comlink';
import type { Replayed } from '../core/debrief/replay.ts';
import type { Cues } from '../core/guidance/cues.ts';
import type { FlightEvent } from '../core/guidance/flight-event.ts';
import type { ReplayService } from './replay-service.worker.ts';

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

/** A client on any endpoint that the service listens behind. */
export function replayClientOn(endpoint: Endpoint): ReplayClient {
  const service = wrap<ReplayService>(endpoint);
  let disposed = false;
  const broken = new Promise<never>((_resolve, reject) => {
    const breakOff = (): void => reject(new Error('the replay could not be started or broke off'));
    endpoint.addEventListener('error', breakOff);
    endpoint.addEventListener('messageerror', breakOff);
  });
  // Nobody may be waiting when it breaks.
  broken.catch(() => {});
  return {
    async run(events, onProgress) {
      for (let from = 0; from < events.length && !disposed; from += EVENTS_IN_A_MESSAGE) {
        await Promise.race([service.take(events.slice(from, from + EVENTS_IN_A_MESSAGE)), broken]);
      }
      if (disposed) return null;
      let ended = false;
      // A report may still be on its way when the answer is there.
      const report = proxy((fraction: number) => {
        if (!disposed && !ended) onProgress(fraction);
      });
      try {
        return await Promise.race([service.run(report), broken]);
      } finally {
        ended = true;
      }
    },
    cuesAt: (atSeconds) => (disposed ? Promise.resolve(null) : Promise.race([service.cuesAt(atSeconds), broken])),
    dispose() {
      disposed = true;
      void service.stop();
      service[releaseProxy]();
    },
  };
}

/** Starts the worker. Disposing of the client ends it. */
export function startReplay(): ReplayClient {
  const worker = new Worker(new URL('./replay.worker.ts', import.meta.url), { type: 'module', name: 'replay' });
  const client = replayClientOn(worker);
  return {
    ...client,
    dispose() {
      client.dispose();
      worker.terminate();
    },
  };
}
