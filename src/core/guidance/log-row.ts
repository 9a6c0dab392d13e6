/** One line of a flight log: an event that reached the guidance, and when. Lines are ordered by sequence alone. */
export interface LogRow {
  /** 0, 1, 2 ... within one flight; a missing number is a gap. */
  readonly sequence: number;
  /**
   * Flight time, the event's own `atSeconds`: counted by the page's monotonic clock, which stops while the device sleeps,
   * from the beginning of the flight; a flight that is resumed after a kill goes on from where its log ends.
   */
  readonly monotonicSeconds: number;
  /** The device's clock, UTC since 1970; it may step. */
  readonly wallMilliseconds: number;
  /** Written and read back as JSON. */
  readonly event: unknown;
}
