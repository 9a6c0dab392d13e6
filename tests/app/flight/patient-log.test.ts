import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createPatientLog } from '../../../src/app/flight/patient-log.ts';
import type { FlightLog, LogHealth } from '../../../src/store/flight-log.ts';
import { StoreFault } from '../../../src/store/store-fault.ts';

/** A log that confirms when it is told to. */
function manualLog() {
  const appended: unknown[] = [];
  const listeners = new Set<() => void>();
  let health: LogHealth = { state: 'saving', waitingRows: 0, fault: null };
  let confirmed = -1;
  const log = {
    append: ({ event }: { readonly event: unknown }) => appended.push(event) - 1,
    health: () => health,
    confirmedSequence: () => confirmed,
    subscribe: (listener: () => void) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: async () => {},
  } as unknown as FlightLog;
  return {
    log,
    appended,
    become(next: Partial<LogHealth>, confirmedSequence: number) {
      health = { ...health, ...next };
      confirmed = confirmedSequence;
      for (const listener of listeners) listener();
    },
  };
}

const entry = (event: string) => ({ monotonicSeconds: 0, wallMilliseconds: 0, event });

describe('createPatientLog', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('hands on in order what came before it was open', async () => {
    const manual = manualLog();
    const patient = createPatientLog(async () => manual.log);
    patient.append(entry('one'));
    patient.append(entry('two'));
    await vi.advanceTimersByTimeAsync(0);
    patient.append(entry('three'));
    expect(manual.appended).toEqual(['one', 'two', 'three']);
  });

  it('says that nothing is saved after three seconds without a log, tries on, and heals', async () => {
    const manual = manualLog();
    let failing = true;
    const patient = createPatientLog(async () => {
      if (failing) throw new StoreFault('no-space');
      return manual.log;
    });
    patient.append(entry('one'));
    await vi.advanceTimersByTimeAsync(2_900);
    expect(patient.notSaving.value).toBe(false);
    await vi.advanceTimersByTimeAsync(200);
    expect(patient.notSaving.value).toBe(true);
    expect(patient.fault.value).toMatch(/no room/);
    failing = false;
    await vi.advanceTimersByTimeAsync(1_000);
    expect(patient.notSaving.value).toBe(false);
    expect(manual.appended).toEqual(['one']);
  });

  it('follows the health and the last row of the log', async () => {
    const manual = manualLog();
    const patient = createPatientLog(async () => manual.log);
    await vi.advanceTimersByTimeAsync(0);
    manual.become({ state: 'not-saving', fault: new StoreFault('timed-out') }, 41);
    expect([patient.notSaving.value, patient.fault.value, patient.confirmedSequence.value]).toEqual([true, 'The storage of this device does not answer.', 41]);
    manual.become({ state: 'saving', fault: null }, 60);
    expect([patient.notSaving.value, patient.fault.value, patient.confirmedSequence.value]).toEqual([false, '', 60]);
  });
});
