import { deviceInstant, deviceTime, type LinkTime } from '../../src/link/link-clock.ts';

/** How many times faster than the device's the hours of these tests pass. */
export const QUICK = 5;
const BEGAN = deviceInstant();

/** A device's clock and timers, five times as fast; all devices of a test agree. What goes over a socket takes as long as ever. */
export const quickTime: LinkTime = {
  now() {
    const { wallMilliseconds, monotonicMilliseconds } = deviceInstant();
    return {
      wallMilliseconds: BEGAN.wallMilliseconds + QUICK * (wallMilliseconds - BEGAN.wallMilliseconds),
      monotonicMilliseconds: BEGAN.monotonicMilliseconds + QUICK * (monotonicMilliseconds - BEGAN.monotonicMilliseconds),
    };
  },
  every: (milliseconds, act) => deviceTime.every(milliseconds / QUICK, act),
  after: (milliseconds) => deviceTime.after(milliseconds / QUICK),
};

/** The wall clock's hour in it. */
export const quickNow = (): number => quickTime.now().wallMilliseconds;
