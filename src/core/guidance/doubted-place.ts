/** Why the word's place is doubted. */
export type PlaceDoubt =
  /** The position went where no aircraft flies, and stayed. */
  | { readonly kind: 'jumped'; readonly metres: number }
  /** A wind that no layer has: the position creeps, or the airspeed is another. */
  | { readonly kind: 'wind-odd' }
  /** Two turns left their trace so long after they were due: the positions come late, or the hand did. */
  | { readonly kind: 'late'; readonly seconds: number }
  /** The page slept so long that the drift since is no longer known to a tenth of a letter. */
  | { readonly kind: 'away'; readonly seconds: number; readonly metres: number };
