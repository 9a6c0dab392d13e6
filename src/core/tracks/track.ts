/** A place at a time on a flown track. */
export interface TrackPoint {
  /** UTC, milliseconds since 1970. */
  readonly timeMilliseconds: number;
  /** WGS 84, -90 to 90. */
  readonly latitudeDegrees: number;
  /** WGS 84, east positive, in [-180, 180). */
  readonly longitudeDegrees: number;
  /** Above what the track's `heightsAbove` says; null when the recorder gave none. */
  readonly heightMetres: number | null;
  /** The smoke switch; null when nobody recorded or marked it. */
  readonly smoke: 'on' | 'off' | null;
}

/** What heights count from: the sea (geoid), the WGS 84 ellipsoid, a pressure of 1013.25 hPa, or nobody knows. */
export type HeightsAbove = 'sea' | 'ellipsoid' | 'pressure' | 'unknown';

/** One flight of one aircraft: points in strictly rising time. */
export interface Track {
  /** The ship's name or what the recorder called the track; plain text of at most 60 characters. */
  readonly name: string;
  readonly heightsAbove: HeightsAbove;
  readonly points: readonly TrackPoint[];
  /** Indexes of points before which reception was lost or the recorder was off; ascending, the first is 0. */
  readonly segmentStarts: readonly number[];
}

/** Tracks from a file, with what was mended on the way: each warning is a sentence a person can read. */
export interface TracksRead {
  readonly tracks: readonly Track[];
  readonly warnings: readonly string[];
}

/** Outside data either reads whole or is refused whole, with a reason a person can act on. */
export type ReadResult<Value> = { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly reason: string };

/** Beyond this a tablet's worker runs out of memory before it runs out of patience; 3 h of three ships at 5 Hz is 24 MB. */
export const TRACK_TEXT_LIMIT_BYTES = 48_000_000;

/** Three ships for 18 h at 5 Hz. */
export const TRACK_POINT_LIMIT = 1_000_000;

/** The points of each segment in turn. */
export function trackSegments(track: Track): readonly (readonly TrackPoint[])[] {
  return track.segmentStarts.map((start, index) => track.points.slice(start, track.segmentStarts[index + 1]));
}
