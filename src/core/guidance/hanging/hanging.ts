import type { SitePoint } from '../../earth/site-frame.ts';
import type { WindVector } from '../../earth/wind-vector.ts';
import type { AirPoint } from '../../paths/air-path.ts';
import type { HangingLimits } from './hanging-limits.ts';

/** How the crowd was promised to see the text, and what a new hanging needs to know of the plan. */
export interface HangingWish {
  /** Azimuth the crowd looks, clockwise from true north. */
  readonly facingRadians: number;
  /** Of the text's middle above the crowd's horizon. */
  readonly viewElevationRadians: number;
  readonly layerAboveSiteMetres: number;
  /** The text's middle as briefed, in the air-mass frame of the setup's strokes. */
  readonly middle: AirPoint;
  /** From the datum to the last smoke, as planned for all ships together. */
  readonly writingSeconds: number;
  /** From the last smoke until the first letter is likely lost. */
  readonly readingSeconds: number;
  /** What was agreed; absent where nothing was. */
  readonly limits?: HangingLimits;
}

/** Where the text hangs and for which wind. */
export interface Hanging {
  /** As it was briefed, for a wind found in flight, or moved by the pilot's hand. */
  readonly kind: 'as-briefed' | 'found-wind' | 'by-hand';
  /** The wind it is hung for, blowing towards. */
  readonly wind: WindVector;
  /** From the briefed place in the air-mass frame. */
  readonly movedEastMetres: number;
  readonly movedNorthMetres: number;
  /** Where the text's middle will stand over the ground at the last smoke. */
  readonly atLastSmoke: SitePoint;
  /** So long after the last smoke it is seen level and at its elevation. */
  readonly levelAfterSeconds: number;
  /** Hung for a last smoke so much later than planned; absent where it is in time. */
  readonly lateSeconds?: number;
  /** The best place is forbidden: the text hangs aside of it, or nowhere it may but as briefed; absent where it is not. */
  readonly forbidden?: 'aside' | 'nowhere';
}
