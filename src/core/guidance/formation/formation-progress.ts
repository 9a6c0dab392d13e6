import type { WindVector } from '../../earth/wind-vector.ts';
import type { LatenessWindow } from '../../plan/plan.ts';

/** What a ship of a formation is about. */
export type FormationPart =
  /** On its way to its own circle at its own height: at first, and whenever it has left the timetable. */
  | 'joining'
  /** On its circle, until its next window. */
  | 'circling'
  /** On the proven way from its circle through its strokes. */
  | 'timetable'
  /** All written: on the way out. */
  | 'leaving';

/** A turn or a heading that gets a ship out of the others' ways at once, before anything else. */
export interface BreakAway {
  readonly sense: 'left' | 'right' | 'either';
  readonly directionRadians: number;
  readonly untilSeconds: number;
}

/** The wind that a text is hung for; null as briefed. */
export interface HungFor {
  readonly wind: WindVector | null;
}

/** Who said how this ship hangs the text: nobody yet, the pilot by figures or a touch, the lead by the link, or the pilot against the lead. */
export type HungBy = 'plan' | 'hand' | 'link' | 'refusal';

/** By how much the lead's datum is later than this ship's; `kept` where its pilot flies by its own all the same. */
export interface LeadTimed {
  readonly laterSeconds: number;
  readonly kept: boolean;
}

export interface FormationProgress {
  readonly part: FormationPart;
  /** Flown on the circle within its band, without a break; a full round and the ship is established. */
  readonly turnedRadians: number;
  readonly lastBearingRadians: number | null;
  /** Since when the layer is the height to hold; null while it is the ship's own. */
  readonly toLayerSinceSeconds: number | null;
  /** The window that is flown or waited for; null when none is known yet, or none is left. */
  readonly window: LatenessWindow | null;
  /** The stroke that the circle was left for; the way to it is that of its entry. */
  readonly fromCircleTo: number | null;
  /** Why the timetable was left; null on it and before it. */
  readonly left: string | null;
  readonly breakAway: BreakAway | null;
  /** The pilot holds. */
  readonly held: boolean;
  /** A clock was set: nothing is entered until the datum is called again. */
  readonly clockBroken: boolean;
  /** Behind the timetable now, or at best when a circle is left; null when not known. */
  readonly lateSeconds: number | null;
  /** What the lead is known to hang; null before anything was said. */
  readonly lead: HungFor | null;
  /** To be hung once it can be; null when nothing waits. */
  readonly wanted: (HungFor & { readonly by: HungBy }) | null;
  readonly hungBy: HungBy;
  /** Null while the lead's datum is this ship's, or nothing is heard of it. */
  readonly leadTimed: LeadTimed | null;
  /** Back from the layer it is at its own height by then. */
  readonly offLayerAtSeconds: number;
}

export const JOINING: FormationProgress = {
  part: 'joining',
  turnedRadians: 0,
  lastBearingRadians: null,
  toLayerSinceSeconds: null,
  window: null,
  fromCircleTo: null,
  left: null,
  breakAway: null,
  held: false,
  clockBroken: false,
  lateSeconds: null,
  lead: null,
  wanted: null,
  hungBy: 'plan',
  leadTimed: null,
  offLayerAtSeconds: -Infinity,
};

/** A full round within the band. */
export function isEstablished({ turnedRadians }: FormationProgress): boolean {
  return turnedRadians >= 2 * Math.PI;
}

/** Whether a ship waits, on its circle or when it comes there, since its lead has another datum and its pilot has not chosen between the two. */
export function waitsForLeadsTime(formation: FormationProgress | null): boolean {
  return formation?.leadTimed?.kept === false && (formation.part === 'joining' || formation.part === 'circling');
}
