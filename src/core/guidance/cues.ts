import type { FormationPart } from './formation/formation-progress.ts';

export type CuePhase = 'standby' | 'run-in' | 'stroke' | 'reposition' | 'go-around' | 'hold' | 'finished' | 'no-cue';

/**
 * The cue contract: what the pilot is to do now. A value that is not trustworthy is null, and then the phase is
 * `no-cue`; a screen shows null as nothing at all.
 */
export interface Cues {
  readonly phase: CuePhase;
  readonly turn: 'left' | 'right' | 'straight' | null;
  /** Heading to fly, or to roll out on, 0 to 359 true. */
  readonly headingTrueDegrees: number | null;
  /** The same, magnetic. */
  readonly headingMagneticDegrees: number | null;
  /** Bank of the turn; 0 when straight. */
  readonly bankDegrees: number | null;
  readonly smoke: 'on' | 'off' | null;
  /** Seconds until the hand should move the smoke switch. */
  readonly smokeInSeconds: number | null;
  /** Off the stroke's or run-in's line, right positive. */
  readonly crossTrackMetres: number | null;
  /** 1-based; 0 before the first and without strokes. */
  readonly strokeNumber: number;
  readonly strokeCount: number;
  readonly character: string | null;
  /** Since the last trusted fix was measured. */
  readonly fixAgeSeconds: number | null;
  /** A caution while ageing; lost blanks the cue. */
  readonly fixHealth: 'good' | 'ageing' | 'lost';
  readonly windFromDegrees: number | null;
  readonly windKnots: number | null;
  readonly oilKilograms: number;
  readonly shipName: string;
  /** What a ship of a formation is about; null for a ship alone. */
  readonly part: FormationPart | null;
  /** To hold now: joining, on the layer, leaving; above mean sea level. Null when nothing asks for one. */
  readonly heightFeet: number | null;
  /** Whether a ship of a formation has flown a full round of its own waiting circle; null without one. */
  readonly established: boolean | null;
  /** Behind the timetable, early negative; before a circle is left, what it will be at best; alone at a time, 0 while not behind. Null without one. */
  readonly lateSeconds: number | null;
  /** The fix is too old to cue by, and a stroke is held for some seconds on its last line or arc. */
  readonly held: boolean;
  /** Why this is cued, in a few words a person can read; some are told apart by {@link REASONS}. */
  readonly because: string;
  /** What comes after this, and how long until the hand should move for it: null when nothing does. */
  readonly next: {
    readonly turn: 'left' | 'right' | 'straight';
    readonly headingMagneticDegrees: number;
    /** 0 when straight. */
    readonly bankDegrees: number;
    readonly inSeconds: number;
  } | null;
}

/** Reasons that change what a screen says. */
export const REASONS = {
  knockedOff: 'knocked off',
  circlingForWind: 'circle to find the wind',
  toCircle: 'to your circle',
  onCircle: 'on your circle: wait',
  heldOnCircle: 'hold on your circle',
  hungOtherwise: 'lead hangs it elsewhere: wait',
  timedOtherwise: 'lead has another time: wait',
  clockBroken: 'clock was set: wait for a new hack',
  offTimetable: 'off the planned way',
  tooLate: 'too late for the others',
  lost: 'no fix: to your own height',
  dark: 'screen was dark',
  touched: 'out of the plan',
  wayOut: 'way out',
  givenUp: 'no safe time left: go out',
} as const;
