/** What the flight so far shows of the pilot's hands and the ship's answer. */
export interface Hands {
  /** From a turn's cue to where it would have begun had it been there at once, beyond half the roll; at first the setup's reaction. */
  readonly turnReactionSeconds: number;
  /** Turn rate flown over the one that the cued bank gives. */
  readonly turnShare: number;
  /** Direction flown less the one cued, anticlockwise, while a heading is held: the pilot's gyro. Taken off what is shown. */
  readonly headingOffRadians: number;
  /** The turn that is being watched; null between turns. */
  readonly turn: {
    readonly sense: 'left' | 'right';
    readonly cuedAtSeconds: number;
    readonly cuedDirectionRadians: number;
    readonly learned: boolean;
    /** Its steady part so far, from the fix before it began to count: what was turned, and what the cued bank would have turned; null before. */
    readonly steady: { readonly atSeconds: number; readonly directionRadians: number; readonly turnedRadians: number; readonly cuedRadians: number } | null;
  } | null;
}
