import type { Page } from '@playwright/test';
import { DEMO_JOB } from '../src/core/job/demo-job.ts';
import type { Job } from '../src/core/job/job.ts';
import { writeJob } from '../src/core/job/write-job.ts';
import type { FlightEvent } from '../src/core/guidance/flight-event.ts';
import { flightSetupFromJob } from '../src/core/guidance/flight-setup-from-job.ts';
import { planJob } from '../src/core/plan/plan-job.ts';
import { storedFromLogRow } from '../src/store/read-row.ts';
import type { StoredFlight, StoredRow } from '../src/store/schema.ts';
import { type FlownWord, flySetup, worldFor } from '../tests/core/debrief/flown-word.ts';

/** A flight with its log as they lie in the store. */
export interface StoredLog {
  readonly flight: StoredFlight;
  readonly rows: readonly StoredRow[];
}

/** The demo job flown by the simulated pilot, 10 kt off the forecast. */
export function flownDemo(seed: number): FlownWord {
  const planned = planJob(DEMO_JOB);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  const { plan } = planned.value;
  const setup = flightSetupFromJob(DEMO_JOB, plan, 0, { kind: 'first-smoke' }, Date.UTC(2027, 5, 19, 17));
  if (!setup.ok) throw new Error(setup.reason);
  const { forecastWind, strokes } = setup.setup;
  const first = strokes[0]!.path.start;
  return flySetup(
    setup.setup,
    worldFor(seed, {
      windEastMetresPerSecond: forecastWind.eastMetresPerSecond - 4,
      windNorthMetresPerSecond: forecastWind.northMetresPerSecond + 3,
      startEastMetres: first.airEastMetres - 2500,
      startNorthMetres: first.airNorthMetres - 2500,
    }),
    { marked: true, seen: false },
  );
}

/** Events as rows of the store. */
export function storedLog(id: string, job: Job, events: readonly FlightEvent[], kind: StoredFlight['kind'] = 'flight'): StoredLog {
  const startedAtMilliseconds = events[0]!.wallMilliseconds;
  return {
    flight: {
      id,
      jobId: job.id,
      name: job.name,
      kind,
      startedAtMilliseconds,
      endedAtMilliseconds: events.at(-1)!.wallMilliseconds,
      jobFileText: writeJob(job),
      setupText: '{"kind":"device"}',
    },
    rows: events.map((event, sequence) =>
      storedFromLogRow(id, { sequence, monotonicSeconds: event.atSeconds, wallMilliseconds: event.wallMilliseconds, event }),
    ),
  };
}

/** Puts a log into the page's store, past the app; the page is loaded anew afterwards. */
export async function putLog(page: Page, { flight, rows }: StoredLog): Promise<void> {
  for (let from = 0; from < rows.length || from === 0; from += 20_000) {
    await page.evaluate(
      ([stored, part]) =>
        new Promise<void>((resolve, reject) => {
          const open = indexedDB.open('quillwind');
          open.onerror = () => reject(open.error);
          open.onsuccess = () => {
            const transaction = open.result.transaction(['flights', 'rows'], 'readwrite');
            transaction.objectStore('flights').put(stored);
            for (const row of part) transaction.objectStore('rows').put(row);
            transaction.oncomplete = () => {
              open.result.close();
              resolve();
            };
            transaction.onabort = () => reject(transaction.error);
          };
        }),
      [flight, rows.slice(from, from + 20_000)] as const,
    );
  }
}
