import type { Page } from '@playwright/test';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { writeJob } from '../../src/core/job/write-job.ts';
import { storedFromLogRow } from '../../src/store/read-row.ts';

export const SEASON = { jobs: 20, rows: 12_000, flights: 4, overlays: 3, overlayBytes: 5_000_000, pictures: 10, pictureBytes: 400_000 } as const;

/** Lays a season into a page's store, past the app: jobs, logs, overlays, pictures. */
export async function putSeason(page: Page): Promise<void> {
  const jobs = Array.from({ length: SEASON.jobs }, (_, index) => {
    const job = { ...DEMO_JOB, id: `season-${index}`, demo: false, name: `Season ${index}` };
    return { id: job.id, name: job.name, savedAtMilliseconds: index + 1, fileText: writeJob(job) };
  });
  const perFlight = SEASON.rows / SEASON.flights;
  for (let flight = 0; flight < SEASON.flights; flight += 1) {
    const id = `flown-${flight}`;
    const rows = Array.from({ length: perFlight }, (_, sequence) =>
      storedFromLogRow(id, {
        sequence,
        monotonicSeconds: sequence / 10,
        wallMilliseconds: 1_800_000_000_000 + sequence * 100,
        event: {
          kind: 'clockAdvanced',
          atSeconds: sequence / 10,
          wallMilliseconds: 1_800_000_000_000 + sequence * 100,
          filler: `${(sequence * 7919) % 100_003}`,
        },
      }),
    );
    const stored = {
      id,
      jobId: `season-${flight}`,
      name: `Season ${flight}`,
      kind: 'flight',
      startedAtMilliseconds: 1_800_000_000_000 + flight,
      endedAtMilliseconds: 1_800_000_300_000 + flight,
      jobFileText: jobs[flight]?.fileText ?? '',
      setupText: '{}',
    };
    await page.evaluate(put, { jobs: flight === 0 ? jobs : [], flight: stored, rows, season: flight === 0 ? SEASON : null } as const);
  }
}

interface Laid {
  readonly jobs: readonly unknown[];
  readonly flight: unknown;
  readonly rows: readonly unknown[];
  readonly season: typeof SEASON | null;
}

function put({ jobs, flight, rows, season }: Laid): Promise<void> {
  return new Promise((resolve, reject) => {
    const open = indexedDB.open('quillwind');
    open.onerror = () => reject(open.error);
    open.onsuccess = () => {
      const transaction = open.result.transaction(['jobs', 'flights', 'rows', 'settings'], 'readwrite');
      for (const job of jobs) transaction.objectStore('jobs').put(job);
      transaction.objectStore('flights').put(flight);
      for (const row of rows) transaction.objectStore('rows').put(row);
      if (season !== null) {
        let state = 12_345;
        // Numbers as coordinates are: they pack, but not to nothing.
        const next = (): string => {
          state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
          return (state / 2_147_483_648).toFixed(6);
        };
        for (let overlay = 0; overlay < season.overlays; overlay += 1) {
          const parts: string[] = [];
          for (let length = 0; length < season.overlayBytes; length += 9) parts.push(next());
          transaction.objectStore('settings').put({ fileName: `areas-${overlay}.geojson`, text: parts.join(' ') }, `overlay/season-${overlay}`);
        }
        for (let picture = 0; picture < season.pictures; picture += 1) {
          const bytes = new Uint8Array(season.pictureBytes);
          for (let index = 0; index < bytes.length; index += 1) {
            state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
            bytes[index] = state >> 16;
          }
          transaction.objectStore('settings').put({ name: `sky-${picture}.jpg`, bytes }, `picture/season-${picture}/1`);
        }
      }
      transaction.oncomplete = () => {
        open.result.close();
        resolve();
      };
      transaction.onabort = () => reject(transaction.error);
    };
  });
}

/** What is whole in a page's store, counted past the app. */
export interface StoredParts {
  readonly jobs: number;
  readonly brokenJobs: number;
  /** Flights, and those of them whose rows are not all there. */
  readonly flights: number;
  readonly brokenFlights: number;
  readonly overlays: number;
  readonly pictures: number;
}

export function countStored(page: Page): Promise<StoredParts> {
  return page.evaluate(
    (perFlight) =>
      new Promise<StoredParts>((resolve, reject) => {
        const open = indexedDB.open('quillwind');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const transaction = open.result.transaction(['jobs', 'flights', 'rows', 'settings']);
          const jobs = transaction.objectStore('jobs').getAll();
          const flights = transaction.objectStore('flights').getAllKeys();
          const rows = transaction.objectStore('rows').getAllKeys();
          const settings = transaction.objectStore('settings').getAllKeys();
          transaction.oncomplete = () => {
            open.result.close();
            const keys = settings.result.map(String);
            const counts = new Map<string, number>();
            for (const key of rows.result)
              counts.set(JSON.stringify((key as [string, number])[0]), (counts.get(JSON.stringify((key as [string, number])[0])) ?? 0) + 1);
            resolve({
              jobs: jobs.result.length,
              brokenJobs: jobs.result.filter((job: { fileText?: unknown }) => {
                try {
                  return typeof JSON.parse(String(job.fileText)) !== 'object';
                } catch {
                  return true;
                }
              }).length,
              flights: flights.result.length,
              brokenFlights: flights.result.filter((id) => counts.get(JSON.stringify(id)) !== perFlight).length,
              overlays: keys.filter((key) => key.startsWith('overlay/')).length,
              pictures: keys.filter((key) => key.startsWith('picture/')).length,
            });
          };
        };
      }),
    SEASON.rows / SEASON.flights,
  );
}
