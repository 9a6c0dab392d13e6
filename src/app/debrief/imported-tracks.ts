import type { SeenSmoke } from '../../core/debrief/smoke-intervals.ts';
import { cleanName } from '../../core/text/clean-name.ts';
import type { HeightsAbove, Track, TrackPoint } from '../../core/tracks/track.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

/** A track another recorder made, taken into a job's debrief. */
export interface ImportedTrack {
  readonly id: string;
  readonly track: Track;
  /** Which ship of the job it is; null for a stranger. */
  readonly shipIndex: number | null;
  /** Smoke marked by hand, or as the file itself told it. Seconds since the track's first point. */
  readonly seen: readonly SeenSmoke[];
}

/** As it is stored: five numbers a point, one after another, instead of an object. */
interface StoredTrack {
  readonly id: string;
  readonly name: string;
  readonly heightsAbove: HeightsAbove;
  readonly segmentStarts: readonly number[];
  /** Time, latitude, longitude, height (NaN for none), smoke (1 on, 0 off, -1 unknown). */
  readonly points: Float64Array;
  readonly shipIndex: number | null;
  readonly seen: readonly SeenSmoke[];
}

const WIDTH = 5;
const HEIGHTS: readonly unknown[] = ['sea', 'ellipsoid', 'pressure', 'unknown'] satisfies HeightsAbove[];
const settingOf = (jobId: string): string => `tracks/${jobId}`;

/** The tracks imported into a job; damaged ones are left out and counted. */
export async function readImportedTracks(
  database: Database,
  jobId: string,
): Promise<{ readonly tracks: readonly ImportedTrack[]; readonly damagedCount: number }> {
  const stored = await readSetting(database, settingOf(jobId));
  if (!Array.isArray(stored)) return { tracks: [], damagedCount: stored === null ? 0 : 1 };
  const tracks = stored.map(trackFromStored);
  const whole = tracks.filter((track) => track !== null);
  return { tracks: whole, damagedCount: tracks.length - whole.length };
}

/** Stores a job's imported tracks, in place of what they were. Rejects with a `StoreFault`. */
export function saveImportedTracks(database: Database, jobId: string, tracks: readonly ImportedTrack[]): Promise<void> {
  return saveSetting(database, settingOf(jobId), tracks.map(storedFromTrack));
}

/** The stored form of a track; the inverse of {@link trackFromStored}. */
export function storedFromTrack({ id, track, shipIndex, seen }: ImportedTrack): StoredTrack {
  const points = new Float64Array(WIDTH * track.points.length);
  track.points.forEach(({ timeMilliseconds, latitudeDegrees, longitudeDegrees, heightMetres, smoke }, index) => {
    points.set([timeMilliseconds, latitudeDegrees, longitudeDegrees, heightMetres ?? Number.NaN, smoke === 'on' ? 1 : smoke === 'off' ? 0 : -1], WIDTH * index);
  });
  return { id, name: track.name, heightsAbove: track.heightsAbove, segmentStarts: track.segmentStarts, points, shipIndex, seen };
}

/** A stored track read back; null for what is none. */
export function trackFromStored(stored: unknown): ImportedTrack | null {
  if (typeof stored !== 'object' || stored === null) return null;
  const { id, name, heightsAbove, segmentStarts, points, shipIndex, seen } = stored as Partial<Record<keyof StoredTrack, unknown>>;
  if (typeof id !== 'string' || typeof name !== 'string' || !HEIGHTS.includes(heightsAbove)) return null;
  if (!(points instanceof Float64Array) || points.length < 2 * WIDTH || points.length % WIDTH !== 0) return null;
  if (!Array.isArray(segmentStarts) || !segmentStarts.every(Number.isInteger) || !Array.isArray(seen)) return null;
  const read: TrackPoint[] = [];
  let lastMilliseconds = -Infinity;
  for (let at = 0; at < points.length; at += WIDTH) {
    const timeMilliseconds = points[at] ?? Number.NaN;
    const latitudeDegrees = points[at + 1] ?? Number.NaN;
    const longitudeDegrees = points[at + 2] ?? Number.NaN;
    const height = points[at + 3] ?? Number.NaN;
    const smoke = points[at + 4] ?? Number.NaN;
    if (!Number.isFinite(timeMilliseconds) || !(Math.abs(latitudeDegrees) <= 90) || !(Math.abs(longitudeDegrees) <= 180)) return null;
    if (timeMilliseconds <= lastMilliseconds) return null;
    lastMilliseconds = timeMilliseconds;
    read.push({
      timeMilliseconds,
      latitudeDegrees,
      longitudeDegrees,
      heightMetres: Number.isFinite(height) ? height : null,
      smoke: smoke === 1 ? 'on' : smoke === 0 ? 'off' : null,
    });
  }
  const marks = (seen as unknown[]).filter(
    (mark): mark is SeenSmoke =>
      typeof mark === 'object' &&
      mark !== null &&
      'onSeconds' in mark &&
      'offSeconds' in mark &&
      Number.isFinite(mark.onSeconds) &&
      Number.isFinite(mark.offSeconds),
  );
  return {
    id,
    track: { name: cleanName(name), heightsAbove: heightsAbove as HeightsAbove, points: read, segmentStarts: segmentStarts as number[] },
    shipIndex: typeof shipIndex === 'number' && Number.isInteger(shipIndex) ? shipIndex : null,
    seen: marks,
  };
}
