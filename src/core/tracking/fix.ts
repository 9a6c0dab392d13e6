/** A position report as a receiver gave it, judged by nobody yet. */
export interface Fix {
  readonly latitudeDegrees: number;
  readonly longitudeDegrees: number;
  /** Radius of 95 % confidence. */
  readonly accuracyMetres: number;
  /** Above the ellipsoid or the sea, as the receiver likes; null when it gives none. */
  readonly altitudeMetres: number | null;
  readonly groundSpeedMetresPerSecond: number | null;
  /** Track over the ground, clockwise from true north. */
  readonly trackDegrees: number | null;
  /** The receiver's own time of measurement, on the wall clock; null when it gives none. */
  readonly stampMilliseconds: number | null;
}
