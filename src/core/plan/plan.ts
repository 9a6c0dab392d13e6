import type { AirPath, AirPoint } from '../paths/air-path.ts';
import type { LetterFrame } from '../paths/letter-frame.ts';

/** Which drawn stroke a leg writes, and how. */
export interface StrokeSource {
  /** Index among the strokes of the letter's chosen alternative. */
  readonly drawnStrokeIndex: number;
  /** Flown from its drawn end to its drawn start. */
  readonly reversed: boolean;
  /** Where a closed stroke is begun, along it as drawn; 0 for open strokes. */
  readonly startMetres: number;
}

/** A stroke in flying order and direction; the smoke is on along the whole of it. */
export interface SmokeLeg {
  readonly kind: 'smoke';
  /** 0-based, counted along this ship's flying order. */
  readonly strokeIndex: number;
  /** Which letter of the text, 0-based in reading order. */
  readonly letterIndex: number;
  readonly character: string;
  /** Names the letter's chosen alternative; all legs of a letter agree. */
  readonly style: string;
  /** The drawn strokes this leg writes in one go: more than one where strokes run into each other. */
  readonly sources: readonly StrokeSource[];
  readonly path: AirPath;
  /** Seconds since the datum at the planned airspeed. */
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/**
 * From a stroke's end, through run-out, turns and run-in, to the next stroke's start; or straight on, when the next
 * stroke continues this one. The smoke is off. Its duration is the path's length over the airspeed, a little more
 * where one turn passes straight into its opposite; the way is then flown evenly within the leg.
 */
export interface RepositionLeg {
  readonly kind: 'reposition';
  readonly path: AirPath;
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** A wait with the wings where the pilot likes them, to keep ships apart. */
export interface HoldLeg {
  readonly kind: 'hold';
  readonly path: AirPath;
  readonly startSeconds: number;
  readonly endSeconds: number;
}

export type Leg = SmokeLeg | RepositionLeg | HoldLeg;

/** How a ship of a formation comes to its first stroke: it waits on a circle of its own, then leaves it in time. */
export interface JoinUp {
  readonly holdCentre: AirPoint;
  readonly holdRadiusMetres: number;
  readonly holdTurn: 'left' | 'right';
  /** From the circle to the ship's first smoke; it may begin before the datum. */
  readonly leg: RepositionLeg;
}

/** What one ship flies, from its first smoke to its last. */
export interface ShipPlan {
  /** 0 is the lead, 1 is two, 2 is three. */
  readonly shipIndex: number;
  readonly legs: readonly Leg[];
  readonly smokeSeconds: number;
  readonly distanceMetres: number;
  /** How often the smoke valve is opened. */
  readonly toggles: number;
  readonly oilKilograms: number;
  /** Height above the job's layer, for height steps; 0 without. */
  readonly heightStepMetres: number;
  /** Absent for a ship alone. */
  readonly joinUp?: JoinUp;
  /** From the last smoke out of the others' way; absent for a ship alone. */
  readonly departure?: RepositionLeg;
  /** The ship's ways from its circle into its strokes, with the lateness proven for each; absent for a ship alone. */
  readonly entries?: readonly TimetableEntry[];
  /** The ship's own height, where it joins, waits and leaves, above the job's layer; below it negative. */
  readonly ownHeightStepMetres?: number;
}

/** Behind the timetable by so much, early negative. */
export interface LatenessWindow {
  readonly fromSeconds: number;
  readonly toSeconds: number;
}

/** A way from a ship's waiting circle into its part: to one of its strokes, and on with all that follow. */
export interface TimetableEntry {
  /** 0-based in this ship's flying order. */
  readonly strokeIndex: number;
  /** Leaves the circle, ends where that stroke begins; timed as planned. */
  readonly leg: RepositionLeg;
  /**
   * Lateness inside which this way, the strokes after it and the way out were proven clear of every other ship in any
   * of its own windows, soonest first; empty where there is none.
   */
  readonly windows: readonly LatenessWindow[];
}

/** A word as one to several ships write it, in the air-mass frame; time 0 is the datum, the lead's first smoke. */
export interface Plan {
  readonly text: string;
  readonly frame: LetterFrame;
  readonly letterHeightMetres: number;
  readonly textWidthMetres: number;
  readonly trueAirspeedMetresPerSecond: number;
  readonly writingRadiusMetres: number;
  readonly turningRadiusMetres: number;
  readonly runInSeconds: number;
  readonly runOutSeconds: number;
  readonly ships: readonly ShipPlan[];
  /** From first smoke to last, over all ships. */
  readonly durationSeconds: number;
  /** What the strokes' penalties (the sun in the pilot's eyes) add to the duration in the choice; 0 without. */
  readonly penaltySeconds: number;
  /** Ships stay this far apart, also when they slip against each other; 0 for one ship. */
  readonly separationMetres: number;
  readonly slipSeconds: number;
  /** No choice that the options allow has a smaller sum of duration and penalties than this. */
  readonly lowerBoundSeconds: number;
}

/** How much longer than the proven bound the plan is, as a fraction: 0 is proven best. */
export function planGap(plan: Plan): number {
  return plan.lowerBoundSeconds > 0 ? Math.max(0, (plan.durationSeconds + plan.penaltySeconds) / plan.lowerBoundSeconds - 1) : 0;
}

/** All that is planned for a ship: from where it leaves its holding circle to where it is out of the others' way. */
export function wholeFlight({ joinUp, legs, departure }: ShipPlan): Leg[] {
  return [...(joinUp ? [joinUp.leg] : []), ...legs, ...(departure ? [departure] : [])];
}

/** The lowest and the highest that any ship flies or waits, above the job's layer; below it negative. */
export function heightStepsOf({ ships }: Plan): { readonly lowestMetres: number; readonly highestMetres: number } {
  const steps = ships.flatMap(({ heightStepMetres, ownHeightStepMetres }) => [heightStepMetres, ownHeightStepMetres ?? heightStepMetres]);
  return { lowestMetres: Math.min(...steps), highestMetres: Math.max(...steps) };
}
