/** The wall clock and the monotonic one went apart, and it is not settled yet whether the page slept or the clock was set. */
export interface ClockQuestion {
  /** What the wall clock gained; negative when it fell back, and then nobody slept. */
  readonly gapSeconds: number;
  readonly sinceSeconds: number;
  /** Fixes that came since and settled nothing. */
  readonly unsettledFixes: number;
}
