import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { InstallProgress } from './follow-install.ts';
import type { FlightWatch } from './flight-watch.ts';

/** Keeps the app's files on the device and offers a newer version when one has been fetched whole. */
export interface UpdateWatch {
  /** True while a newer version waits and no flight is in progress: the only time it may be offered. */
  readonly offered: ReadonlySignal<boolean>;
  /** Whether every file is on the device, so that the app opens offline. */
  readonly shell: ReadonlySignal<'storing' | 'complete' | 'unsupported' | 'failed'>;
  /** How many of the files are stored while they are being; null before and after. */
  readonly progress: ReadonlySignal<InstallProgress | null>;
  /** Why the storing was broken off, while it is tried again; null while it was not. */
  readonly installFault: ReadonlySignal<string | null>;
  /** The user's yes: the newer version takes over and the page loads again. False when a flight has begun, which refuses it. */
  accept(): Promise<boolean>;
}

/** Registers the service worker; null in development, where there is none. */
export function watchUpdates(flights: FlightWatch, address: string | null): UpdateWatch {
  const waiting = signal(false);
  const shell = signal<'storing' | 'complete' | 'unsupported' | 'failed'>('storing');
  const progress = signal<InstallProgress | null>(null);
  const installFault = signal<string | null>(null);
  const offered = computed(() => waiting.value && !flights.inProgress.value);
  if (address === null || !('serviceWorker' in navigator)) {
    shell.value = 'unsupported';
    return { offered, shell, progress, installFault, accept: async () => false };
  }
  // Fetched by itself: a resumed flight shows its cue before anyone thinks of updates.
  const following = import('./follow-service-worker.ts').then(
    ({ followServiceWorker }) => followServiceWorker(address, flights, { waiting, shell, progress, installFault }),
    () => {
      if (shell.value === 'storing') shell.value = 'failed';
      return null;
    },
  );
  return {
    offered,
    shell,
    progress,
    installFault,
    async accept() {
      return (await (await following)?.takeOver()) ?? false;
    },
  };
}
