/** A number or word that was checked, in SI units; whoever shows it brings it into the pilot's. */
export type CheckValue =
  /** Above mean sea level or above the ground, as the check's title says. */
  | { readonly kind: 'height'; readonly metres: number }
  | { readonly kind: 'distance'; readonly metres: number }
  | { readonly kind: 'speed'; readonly metresPerSecond: number }
  | { readonly kind: 'angle'; readonly radians: number }
  | { readonly kind: 'duration'; readonly seconds: number }
  | { readonly kind: 'instant'; readonly epochMilliseconds: number }
  | { readonly kind: 'mass'; readonly kilograms: number }
  | { readonly kind: 'volume'; readonly litres: number }
  | { readonly kind: 'shear'; readonly perSecond: number }
  | { readonly kind: 'share'; readonly fraction: number }
  | { readonly kind: 'words'; readonly words: string };

/** `ok` is not `safe`: this value kept this limit, and nothing more is said. */
export type CheckStatus = 'ok' | 'caution' | 'stop' | 'not-checked';

/** The least or the most that is wanted, or the one word. */
export type LimitSense = 'least' | 'most' | 'wanted';

/** One line of the go/no-go. */
export interface Check {
  /** Stable name, for tests and links. */
  readonly id: string;
  readonly title: string;
  readonly status: CheckStatus;
  /** What was found; null when nothing was looked at. */
  readonly value: CheckValue | null;
  /** What it was held against; null where there is no number. */
  readonly limit: CheckValue | null;
  /** Which side of the limit is right; null where there is no number. */
  readonly limitIs: LimitSense | null;
  /** The rule's number, or `common practice, no source`. */
  readonly source: string;
  /** What to do or to know, in a sentence. */
  readonly advice: string;
}
