import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Job } from '../../core/job/job.ts';
import { type BatteryState, watchBattery } from '../../sensors/battery.ts';
import { devicePlatform, devicePosition } from '../../sensors/device-position.ts';
import { keepAwake, wakeLockPlatform, type WakeLockState } from '../../sensors/wake-lock.ts';
import type { SoundState } from '../../sound/sound.ts';
import type { Database } from '../../store/database.ts';
import { deleteFlight } from '../../store/flights.ts';
import { openFlightLog } from '../../store/flight-log.ts';
import type { Persistence } from '../../store/persistence.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import {
  batteryCheck,
  clockCheck,
  type Check,
  logCheck,
  type LogState,
  positionCheck,
  type PositionState,
  shellCheck,
  soundCheck,
  storageCheck,
  wakeLockCheck,
} from './readiness-checks.ts';
import { askStoredFiles, type StoredFiles } from './stored-files.ts';

export interface ReadinessParts {
  readonly job: Job;
  readonly database: Database;
  readonly shell: ReadonlySignal<'storing' | 'complete' | 'unsupported' | 'failed'>;
  readonly persistence: ReadonlySignal<Persistence | null>;
  readonly sound: ReadonlySignal<SoundState>;
  readonly nowMilliseconds: () => number;
}

export interface Readiness {
  readonly checks: ReadonlySignal<readonly Check[]>;
  /** Whether positions of the device are looked at, which asks for the permission. */
  readonly watchPosition: Signal<boolean>;
  /** Looks again at what does not change by itself. */
  lookAgain(): void;
  end(): void;
}

const PATIENCE_MILLISECONDS = 15_000;
const AGES_KEPT = 8;
const CHECK_LOG = 'readiness-check';

/** Looks at everything that a flight depends on, each with the way to mend it. */
export function watchReadiness(parts: ReadinessParts): Readiness {
  const position = signal<PositionState>({ fix: null, lost: null, waitedLong: false });
  const agesSeconds = signal<readonly number[]>([]);
  const wakeLock = signal<WakeLockState>('asking');
  const log = signal<LogState>({ kind: 'open' });
  const battery = signal<BatteryState | null>(null);
  const files = signal<StoredFiles | null>(null);
  const watchPosition = signal(false);
  const endings: (() => void)[] = [];
  let endPosition = (): void => {};

  const beginPosition = (): void => {
    endPosition();
    position.value = { fix: null, lost: null, waitedLong: false };
    agesSeconds.value = [];
    const patience = setTimeout(() => (position.value = { ...position.value, waitedLong: true }), PATIENCE_MILLISECONDS);
    const end = devicePosition(devicePlatform()).start({
      fixReceived(fix) {
        position.value = { fix, lost: null, waitedLong: true };
        if (fix.stampMilliseconds !== null)
          agesSeconds.value = [...agesSeconds.value, (parts.nowMilliseconds() - fix.stampMilliseconds) / 1000].slice(-AGES_KEPT);
      },
      fixesLost: (reason) => (position.value = { ...position.value, lost: reason }),
    });
    endPosition = () => {
      clearTimeout(patience);
      end();
    };
  };
  const checkLog = (): void => {
    log.value = { kind: 'open' };
    logWrittenAndReadBack(parts.database, parts.nowMilliseconds()).then(
      () => (log.value = { kind: 'good' }),
      (error: unknown) => (log.value = { kind: 'bad', reason: storeFaultFrom(error).message }),
    );
  };
  const checkFiles = (): void => {
    files.value = null;
    void askStoredFiles(navigator.serviceWorker).then((found) => (files.value = found));
  };
  endings.push(
    parts.shell.subscribe((shell) => {
      if (shell === 'complete') checkFiles();
    }),
    watchPosition.subscribe((wanted) => {
      if (wanted) beginPosition();
      else endPosition();
    }),
    keepAwake(wakeLockPlatform(), (next) => (wakeLock.value = next)),
    watchBattery((next) => (battery.value = next)),
    () => endPosition(),
  );
  checkLog();
  return {
    watchPosition,
    checks: computed(() => [
      ...(watchPosition.value ? [positionCheck(position.value, parts.job), clockCheck(agesSeconds.value)] : []),
      logCheck(log.value),
      shellCheck(parts.shell.value, files.value),
      soundCheck(parts.sound.value),
      wakeLockCheck(wakeLock.value),
      ...(battery.value === null ? [] : [batteryCheck(battery.value)]),
      // Last: what it says once it is known is the longest.
      storageCheck(parts.persistence.value),
    ]),
    lookAgain() {
      checkLog();
      if (parts.shell.peek() === 'complete') checkFiles();
      if (watchPosition.peek()) beginPosition();
    },
    end() {
      for (const ending of endings) ending();
    },
  };
}

/** Writes a row to a log of its own, reads it back and clears it away; rejects with what went wrong. */
async function logWrittenAndReadBack(database: Database, wallMilliseconds: number): Promise<void> {
  await deleteFlight(database, CHECK_LOG);
  const { log } = await openFlightLog(database, CHECK_LOG);
  const event = { kind: 'readinessChecked', wallMilliseconds };
  log.append({ monotonicSeconds: 0, wallMilliseconds, event });
  try {
    await Promise.race([log.flushed(), failedLog(log)]);
    const { rows } = await log.rows();
    if (JSON.stringify(rows.at(-1)?.event) !== JSON.stringify(event)) throw new Error('The row that was written was not there when it was read back.');
  } finally {
    void log
      .close()
      .then(() => deleteFlight(database, CHECK_LOG))
      .catch(() => {});
  }
}

function failedLog(log: { health(): { readonly fault: Error | null }; subscribe(listener: () => void): () => void }): Promise<never> {
  return new Promise((_resolve, reject) => {
    log.subscribe(() => {
      const { fault } = log.health();
      if (fault !== null) reject(fault);
    });
  });
}
