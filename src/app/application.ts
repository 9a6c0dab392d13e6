import { computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { createDatabase, type Database } from '../store/database.ts';
import { createOneWriter } from '../store/one-writer.ts';
import { askAgain } from './ask-again.ts';
import { type AppearanceChoice, followAppearance } from './appearance.ts';
import { createFlightDesk, type FlightDesk } from './flight/flight-desk.ts';
import { createFlightWatch, type FlightWatch } from './flight-watch.ts';
import { followRoute } from './follow-route.ts';
import { jobNews } from './jobs/job-news.ts';
import { createJobShelf } from './jobs/job-shelf.ts';
import type { JobShelf } from './jobs/shelf-types.ts';
import { laterLink } from './link/later-link.ts';
import type { LinkDesk } from './link/link-desk.ts';
import type { Planner } from './planner.ts';
import { hashFromRoute, type Route } from './route.ts';
import { type StorageWatch, watchStorage } from './storage-watch.ts';
import { type UpdateWatch, watchUpdates } from './update-watch.ts';

/** What the screens read and call; made once in main. */
export interface Application {
  readonly route: ReadonlySignal<Route>;
  readonly go: (route: Route) => void;
  readonly jobs: JobShelf;
  readonly flights: FlightWatch;
  readonly flightDesk: FlightDesk;
  readonly planner: Planner;
  readonly link: LinkDesk;
  readonly appearance: AppearanceChoice;
  readonly storage: StorageWatch;
  readonly updates: UpdateWatch;
  /** Files the system gave the app, for the Jobs screen to take. */
  readonly given: Signal<readonly File[]>;
  /** Recorded flights that another screen was given, for the debrief that is opened next. */
  readonly handedOver: Signal<readonly File[]>;
  /** For the other parts of app; screens go through those. */
  readonly database: Database;
}

export interface ApplicationOptions {
  /** Where the service worker is; null for none. */
  readonly serviceWorkerAddress: string | null;
}

/** Starts everything that lives as long as the page. */
export function createApplication({ serviceWorkerAddress }: ApplicationOptions): Application {
  const nowMilliseconds = (): number => Date.now();
  const oneWriter = createOneWriter(navigator.locks);
  const database = createDatabase({ permitWriting: oneWriter.permitWriting, mayGiveWay: () => !flights.inProgress.peek() });
  const flights: FlightWatch = createFlightWatch(database, nowMilliseconds);
  const address = followRoute();
  const jobs = createJobShelf(database, nowMilliseconds, jobNews(), () => localStorage);
  const storage = watchStorage(database, oneWriter);

  const go = (target: Route): void => {
    location.hash = hashFromRoute(target);
  };
  const flightDesk = createFlightDesk({ database, flights, storage, nowMilliseconds, showWrite: (jobId) => go({ screen: 'write', jobId }) });

  // Asked by a newer page at the start, before it was known whether a flight goes on, or in a flight that has ended since.
  effect(() => {
    if (!flights.inProgress.value) database.giveWay();
  });

  // In flight the cues stay on the screen, wherever the address may have been led.
  const route = computed((): Route =>
    flightDesk.state.value.kind === 'flying' ? { screen: 'write', jobId: flightDesk.state.value.flight.jobId } : address.value,
  );

  const given = signal<readonly File[]>([]);
  // Not needed for a first cue: fetched when the page has nothing else to do.
  void import('./after-start.ts').then(
    ({ afterStart }) =>
      afterStart((files) => {
        given.value = [...given.peek(), ...files];
        go({ screen: 'jobs' });
      }),
    () => {},
  );

  void askAgain(async () => {
    await flights.refresh();
    return flights.asked.peek();
  });
  // A tab that becomes the writer may have been reading old data.
  effect(() => {
    if (storage.writer.value === 'asking') return;
    void askAgain(async () => {
      await jobs.refresh();
      return jobs.state.peek().kind === 'ready';
    });
  });
  effect(() => {
    // Some browsers put the question to the pilot.
    if (!flights.inProgress.value && route.value.screen !== 'write' && storage.persistence.peek() === null) void storage.ask();
  });

  return {
    route,
    go,
    jobs,
    flights,
    flightDesk,
    planner: lazyPlanner(),
    link: laterLink(async () => (await import('./link/link-desk.ts')).createLinkDesk(database, flightDesk)),
    appearance: followAppearance(database),
    storage,
    given,
    handedOver: signal([]),
    updates: watchUpdates(flights, serviceWorkerAddress),
    database,
  };
}

/** Fetched when a plan is first asked for: a resumed flight has its own. */
function lazyPlanner(): Planner {
  let made: Promise<Planner> | null = null;
  const make = async (): Promise<Planner> => {
    const [{ createPlanner }, { startPlanner }] = await Promise.all([import('./planner.ts'), import('../workers/planner-client.ts')]);
    return createPlanner(async () => startPlanner());
  };
  return {
    async plan(job, onProgress, stop) {
      // A chunk that could not be fetched is asked for again.
      made ??= make().catch((error: unknown) => {
        made = null;
        throw error;
      });
      return (await made).plan(job, onProgress, stop);
    },
  };
}
