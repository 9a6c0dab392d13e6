import { Workbox } from 'workbox-window';
import type { FlightWatch } from './flight-watch.ts';
import { atRest } from './at-rest.ts';
import { followInstall } from './follow-install.ts';
import type { UpdateSignals } from './update-signals.ts';

/** The service worker as this page sees it. */
export interface ServiceWorkerFollowed {
  /** The newer version takes over, and the page loads again. False, and nothing of it, when a flight has begun. */
  takeOver(): Promise<boolean>;
}

/**
 * A newer worker that is told to take over within the first second or so of a page waits for ever in Chromium 156, told
 * again or not (14 of 19 presses half a second after the load); told later it takes over within 1.1 s (10 of 10).
 */
const SETTLED_MILLISECONDS = 3000;

/** Registers the service worker, and looks for a newer one whenever the page is shown again and nobody flies. */
export function followServiceWorker(address: string, flights: FlightWatch, { waiting, shell, progress, installFault }: UpdateSignals): ServiceWorkerFollowed {
  let accepted = false;
  let registration: ServiceWorkerRegistration | undefined;
  navigator.serviceWorker.ready.then(
    () => (shell.value = 'complete'),
    () => (shell.value = 'failed'),
  );
  const workbox = new Workbox(address);
  workbox.addEventListener('waiting', () => {
    waiting.value = true;
  });
  workbox.addEventListener('controlling', () => {
    // Another tab's yes does not reload this one, which may be flying.
    if (accepted) location.reload();
  });
  // Who is served by a worker already only hears of a newer one; a first visit is shown before it is stored.
  const first = (navigator.serviceWorker.controller === null ? atRest() : Promise.resolve()).then(() => workbox.register());
  void followInstall(
    navigator.serviceWorker,
    async (attempt) => {
      // The library registers once; what was broken off is begun again past it.
      registration = (attempt === 0 ? await first : undefined) ?? (await navigator.serviceWorker.register(address));
      return registration;
    },
    { progress, fault: installFault },
  );
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || flights.inProgress.peek()) return;
    void workbox.update().catch(() => {});
  });
  return {
    async takeOver() {
      await new Promise((resolve) => setTimeout(resolve, SETTLED_MILLISECONDS - performance.now()));
      await flights.refresh();
      if (flights.inProgress.peek()) return false;
      accepted = true;
      // Another tab said yes before: the newer version is at work already, and this page only has to be loaded again.
      if (registration?.waiting == null) location.reload();
      else registration.waiting.postMessage({ type: 'USER_SAID_YES' });
      return true;
    },
  };
}
