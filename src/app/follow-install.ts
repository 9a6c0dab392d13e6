import type { Signal } from '@preact/signals';

/** How many of the app's files are stored. */
export interface InstallProgress {
  readonly stored: number;
  readonly total: number;
}

export interface InstallSigns {
  readonly progress: Signal<InstallProgress | null>;
  /** Why the last attempt was broken off; null while none was. */
  readonly fault: Signal<string | null>;
}

const LOOK_MILLISECONDS = 500;
const ANSWER_MILLISECONDS = 2000;
/** Waits between the first attempts, and from then on. */
const WAITS_MILLISECONDS = [3000, 6000, 12_000];
const LONGEST_MILLISECONDS = 30_000;

/**
 * Follows the first storing of the app, and begins it again when it was broken off: a worker whose install fails is thrown
 * away, and the browser tries by itself only at the next visit. Resolves once one is active.
 */
export async function followInstall(
  container: ServiceWorkerContainer,
  register: (attempt: number) => Promise<ServiceWorkerRegistration>,
  { progress, fault }: InstallSigns,
): Promise<void> {
  container.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (typeof data === 'object' && data !== null && 'type' in data && data.type === 'INSTALL_FAULT' && 'fault' in data && typeof data.fault === 'string')
      fault.value = data.fault;
  });
  for (let attempt = 0; ; attempt += 1) {
    const registration = await register(attempt).catch((error: unknown) => {
      fault.value = error instanceof Error ? error.message : String(error);
      return null;
    });
    if (registration !== null && (await installed(registration, progress))) {
      fault.value = null;
      progress.value = null;
      return;
    }
    await pause(WAITS_MILLISECONDS[attempt] ?? LONGEST_MILLISECONDS);
  }
}

/** True once a worker is active or waits, false when the one that was storing is gone. */
async function installed(registration: ServiceWorkerRegistration, progress: Signal<InstallProgress | null>): Promise<boolean> {
  for (;;) {
    const { active, waiting, installing } = registration;
    if (active !== null || waiting !== null) return true;
    if (installing === null || installing.state === 'redundant') return false;
    const told = await asked(installing);
    if (told !== null) progress.value = told;
    await pause(LOOK_MILLISECONDS);
  }
}

function asked(worker: ServiceWorker): Promise<InstallProgress | null> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    const timer = setTimeout(() => resolve(null), ANSWER_MILLISECONDS);
    port1.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
      clearTimeout(timer);
      port1.close();
      resolve(isProgress(data) ? { stored: data.stored, total: data.total } : null);
    });
    port1.start();
    worker.postMessage({ type: 'HOW_FAR' }, [port2]);
  });
}

function isProgress(value: unknown): value is InstallProgress {
  return (
    typeof value === 'object' && value !== null && 'stored' in value && 'total' in value && typeof value.stored === 'number' && typeof value.total === 'number'
  );
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
