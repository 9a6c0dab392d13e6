import { StoreFault } from './store-fault.ts';

const STEPS = 6;

/**
 * The promise's outcome, or a fault once it has not settled for the given seconds. Counted in six short steps:
 * a device that wakes from sleep finds one timer overdue, not all, and the storage has time to answer first.
 */
export function settleWithin<Result>(promise: Promise<Result>, limitSeconds: number): Promise<Result> {
  return new Promise((resolve, reject) => {
    let stepsLeft = STEPS;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const step = (): void => {
      if (stepsLeft === 0) {
        reject(new StoreFault('timed-out'));
        return;
      }
      stepsLeft -= 1;
      timer = setTimeout(step, (limitSeconds * 1000) / STEPS);
    };
    step();
    promise.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
