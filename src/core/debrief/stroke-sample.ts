/** A moment under smoke, beside the stroke it was meant for. */
export interface StrokeSample {
  readonly atSeconds: number;
  readonly airEastMetres: number;
  readonly airNorthMetres: number;
  /** Along the stroke's path, before its start negative, past its end more than its length. */
  readonly alongMetres: number;
  /** Right of the path positive. */
  readonly crossTrackMetres: number;
  /** The path's direction there, anticlockwise from east. */
  readonly pathDirectionRadians: number;
  /** Flown less the path's, left positive. */
  readonly headingErrorRadians: number;
}
