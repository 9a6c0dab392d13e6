/** At most so wide do a letter's own curves grow for a ship that turns widely: beyond, it is another letter. */
export const WIDEST_OWN_CURVE_HEIGHTS = 0.33;

/** A letter's own curve, as wide as drawn or as the ship needs. */
export function grown(roundingHeights: number, drawnHeights: number): number {
  return Math.max(drawnHeights, Math.min(roundingHeights, WIDEST_OWN_CURVE_HEIGHTS));
}

/**
 * How far to the side of each other two bowls of this radius stand, one in the upper and one in the lower half of a
 * letter, so that a line can pass from one round the other: 0 at 0.25, where one stands on the other, and always
 * growing.
 */
export function bowlsAside(radiusHeights: number): number {
  return Math.sqrt(Math.max(0, 4 * radiusHeights - 1)) + (radiusHeights > 0.25 ? 0.02 : 0);
}
