import { batch } from '@preact/signals';
import { type ShipLog, shipLog } from '../../core/debrief/ship-log.ts';
import { parseJob } from '../../core/job/parse-job.ts';
import type { Database } from '../../store/database.ts';
import { readEndedLog } from '../../store/packed-log.ts';
import { readLog } from '../../store/read-log.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import type { ReplayClient } from '../../workers/replay-client.ts';
import type { DeskSignals } from './desk-signals.ts';
import type { DebriefDesk } from './desk-types.ts';
import { flownEventsFrom } from './flown-events.ts';
import { nextPicture } from './next-picture.ts';
import { readSeenMarks } from './seen-marks.ts';

/** Opens flights on a desk, one after another, and replays each off the page. */
export interface FlightOpener extends Pick<DebriefDesk, 'open' | 'cuesAt'> {
  dispose(): void;
}

/** The flight opened last wins, whichever is read first. */
export function createFlightOpener(
  database: Database,
  { flights, state, own, ownSeen, oilLeftPounds, replayFraction, replayFault, done }: DeskSignals,
  startReplay: () => ReplayClient,
): FlightOpener {
  let replay: ReplayClient | null = null;
  let disposed = false;

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

  return {
    async open(flightId) {
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
          const reason = flown.events.length === 0 ? 'The log of this flight is empty.' : 'The log of this flight holds no beginning.';
          state.value = { kind: 'failed', flightId, reason };
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
    },
    async cuesAt(utcMilliseconds) {
      const opened = own.peek();
      if (opened === null || replay === null) return null;
      return replay.cuesAt((utcMilliseconds - opened.log.zeroMilliseconds) / 1000).catch(() => null);
    },
    dispose() {
      disposed = true;
      replay?.dispose();
    },
  };
}
