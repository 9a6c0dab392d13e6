/** A moment by both of a device's clocks: the one that sleeps and never steps, and the one that steps and never sleeps. */
export interface LinkInstant {
  readonly wallMilliseconds: number;
  readonly monotonicMilliseconds: number;
}

/** The device's own. */
export function deviceInstant(): LinkInstant {
  return { wallMilliseconds: Date.now(), monotonicMilliseconds: performance.now() };
}

/** A clock and what waits by it: given to whatever waits, so that a test's hours can be shorter. */
export interface LinkTime {
  now(): LinkInstant;
  /** Acts again and again until the returned function is called. */
  every(milliseconds: number, act: () => void): () => void;
  after(milliseconds: number): Promise<void>;
}

/** The device's own. */
export const deviceTime: LinkTime = {
  now: deviceInstant,
  every(milliseconds, act) {
    const timer = setInterval(act, milliseconds);
    return () => clearInterval(timer);
  },
  after: (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
};

/** Time passed by whichever clock says more: a sleep counts, a clock set back does not make anything younger. */
export function elapsedMilliseconds(from: LinkInstant, to: LinkInstant): number {
  return Math.max(0, to.wallMilliseconds - from.wallMilliseconds, to.monotonicMilliseconds - from.monotonicMilliseconds);
}

/** How far the clocks went apart between two moments: the length of a sleep, or a step of the wall clock. */
export function clocksApartMilliseconds(from: LinkInstant, to: LinkInstant): number {
  return to.wallMilliseconds - from.wallMilliseconds - (to.monotonicMilliseconds - from.monotonicMilliseconds);
}
