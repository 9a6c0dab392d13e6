import type { HangingWish } from '../hanging/hanging.ts';
import type { AirPath, AirPoint } from '../../paths/air-path.ts';
import type { LatenessWindow } from '../../plan/plan.ts';

/** A way from this ship's circle to one of its strokes, and when it may be begun. */
export interface FormationEntry {
  readonly strokeIndex: number;
  readonly path: AirPath;
  /** Planned, seconds since the datum, negative before it. */
  readonly leaveSeconds: number;
  /** Lateness proven for this way and for all that follows it, soonest first. */
  readonly windows: readonly LatenessWindow[];
}

/** Another ship, as far as its plan says. */
export interface OtherShip {
  readonly shipIndex: number;
  readonly holdCentre: AirPoint;
  /** Nobody else comes nearer to the centre. */
  readonly keptClearMetres: number;
  /** Its flight from its circle to the end of its way out; times are seconds since the datum. */
  readonly legs: readonly { readonly path: AirPath; readonly startSeconds: number; readonly endSeconds: number }[];
}

/** What a ship of a formation must know beside its own strokes, so that it keeps apart with nobody to ask. */
export interface FormationSetup {
  /** Where it joins, waits and leaves, above mean sea level; no other ship of the formation has it. */
  readonly ownHeightMetres: number;
  readonly separationMetres: number;
  readonly textMiddle: AirPoint;
  readonly entries: readonly FormationEntry[];
  /** The planned way before each stroke; null before the first, which an entry leads to, and where strokes run on. */
  readonly ways: readonly (AirPath | null)[];
  readonly departure: AirPath;
  readonly others: readonly OtherShip[];
  /** How the text is hung for a wind that all ships are told; absent in older logs. */
  readonly hanging?: HangingWish;
}
