import type { AirPath, AirPose } from '../paths/air-path.ts';
import type { ShipLimits } from '../paths/ship-model.ts';

/** A stroke that is still to be flown. */
export interface RestStroke {
  readonly strokeIndex: number;
  readonly letterIndex: number;
  readonly path: AirPath;
  /** Broken off: it is taken up there, and flown as it was begun. */
  readonly from: { readonly pose: AirPose; readonly alongMetres: number } | null;
}

/** How letters are to be finished; those with a stroke flown once already are bound by none of it. */
export type RestRule = 'letter-by-letter' | 'finished-in-turn' | 'any';

/** What is left of a flight: plain data, since it is sent to a worker. */
export interface RestProblem {
  readonly pose: AirPose;
  /** In the order in which they would be flown. */
  readonly strokes: readonly RestStroke[];
  readonly limits: ShipLimits;
  readonly rule: RestRule;
  /** Strokes keep their directions. */
  readonly directionsKept: boolean;
  /** Letters that were finished once, or begun, but for the one that is being written. */
  readonly lettersBegun: readonly number[];
}

export interface RestOrder {
  /** In flying order; seconds from the beginning of each to the end of all. */
  readonly strokes: readonly { readonly strokeIndex: number; readonly path: AirPath; readonly restSeconds: number }[];
  /** Against the order that was given. */
  readonly savedSeconds: number;
}
