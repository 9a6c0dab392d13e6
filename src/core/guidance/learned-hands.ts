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
  } | null;
}
