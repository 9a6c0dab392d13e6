/** One line of a flight log: an event that reached the guidance, and when. Lines are ordered by sequence alone. */
export interface LogRow {
  /** 0, 1, 2 ... within one flight; a missing number is a gap. */
  readonly sequence: number;
  /** The page's monotonic clock; it starts anew with each page and stops while the device sleeps. */
  readonly monotonicSeconds: number;
  /** The device's clock, UTC since 1970; it may step. */
  readonly wallMilliseconds: number;
  /** Written and read back as JSON. */
  readonly event: unknown;
}
