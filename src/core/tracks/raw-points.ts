import { cleanName } from '../text/clean-name.ts';
import { type HeightsAbove, type ReadResult, type Track, type TrackPoint, type TracksRead, TRACK_POINT_LIMIT } from './track.ts';
import { civilFromDays } from '../text/utc.ts';

/** Points as one recording gave them, in its order, with the indexes at which it began anew. */
export interface RawRecording {
  readonly name: string;
  readonly heightsAbove: HeightsAbove;
  readonly points: readonly TrackPoint[];
  readonly segmentStarts: readonly number[];
}

/** Two flights, not one: no writing flight pauses its recorder for half an hour in the air. */
const FLIGHT_GAP_MILLISECONDS = 30 * 60_000;

/** No satellite receiver's clock showed a real flight before this year; 2001 is where a reset clock begins. */
const FIRST_YEAR = 2010;

/**
 * Tracks from what recorders gave: points sorted by time, doubled times dropped, flights half an hour apart told
 * from each other, and every mending said in a warning.
 *
 * Refuses recordings that hold no track of two points, or more than a million points.
 */
export function tracksFromRecordings(recordings: readonly RawRecording[], warningsBefore: readonly string[]): ReadResult<TracksRead> {
  const count = recordings.reduce((sum, { points }) => sum + points.length, 0);
  if (count > TRACK_POINT_LIMIT)
    return { ok: false, reason: `The file holds ${count} points; more than ${TRACK_POINT_LIMIT} cannot be shown. Split it by flight.` };
  const warnings = [...warningsBefore];
  const tracks = recordings.flatMap((recording) => flightsOf(sorted(recording, warnings), warnings));
  if (tracks.length === 0) {
    return { ok: false, reason: count === 0 ? 'The file holds no track points.' : 'The file holds no track of at least two points with different times.' };
  }
  if (tracks.length > recordings.length) warnings.push(`The file holds ${tracks.length} flights, told apart by pauses of half an hour or more.`);
  for (const { name, points } of tracks) {
    const { year } = civilFromDays(Math.floor((points[0]?.timeMilliseconds ?? 0) / 86_400_000));
    if (year < FIRST_YEAR)
      warnings.push(`${name}: the recorder's clock says the year ${year}, so it was not set. Times between points hold; the time of day does not.`);
  }
  return { ok: true, value: { tracks, warnings } };
}

function sorted(recording: RawRecording, warnings: string[]): RawRecording {
  const starts = new Set(recording.segmentStarts);
  let backward = 0;
  let beforeMilliseconds = -Infinity;
  for (const { timeMilliseconds } of recording.points) {
    if (timeMilliseconds < beforeMilliseconds) backward += 1;
    beforeMilliseconds = timeMilliseconds;
  }
  const tagged = recording.points.map((point, index) => ({ point, starts: starts.has(index) }));
  if (backward > 0) {
    tagged.sort((one, other) => one.point.timeMilliseconds - other.point.timeMilliseconds);
    warnings.push(`${recording.name}: time ran backward ${backward} ${backward === 1 ? 'time' : 'times'}; the points were put in order of time.`);
  }
  const points: TrackPoint[] = [];
  const segmentStarts: number[] = [];
  let doubled = 0;
  let startsNext = true;
  for (const { point, starts: startsHere } of tagged) {
    startsNext ||= startsHere;
    if (point.timeMilliseconds === points.at(-1)?.timeMilliseconds) {
      doubled += 1;
      continue;
    }
    if (startsNext) segmentStarts.push(points.length);
    startsNext = false;
    points.push(point);
  }
  if (doubled > 0)
    warnings.push(`${recording.name}: ${doubled} ${doubled === 1 ? 'point' : 'points'} with a time already taken ${doubled === 1 ? 'was' : 'were'} left out.`);
  return { ...recording, points, segmentStarts };
}

function flightsOf(recording: RawRecording, warnings: string[]): Track[] {
  const { points } = recording;
  const bounds = [0];
  let beforeMilliseconds = Infinity;
  points.forEach(({ timeMilliseconds }, index) => {
    if (timeMilliseconds - beforeMilliseconds >= FLIGHT_GAP_MILLISECONDS) bounds.push(index);
    beforeMilliseconds = timeMilliseconds;
  });
  const name = cleanName(recording.name);
  const tracks: Track[] = [];
  bounds.forEach((start, which) => {
    const end = bounds[which + 1] ?? points.length;
    if (end - start < 2) {
      if (end > start) warnings.push(`${name}: a single point on its own was left out.`);
      return;
    }
    const inside = recording.segmentStarts.filter((index) => index > start && index < end).map((index) => index - start);
    tracks.push({
      name: bounds.length > 1 ? cleanName(`${name} (flight ${tracks.length + 1})`) : name,
      heightsAbove: recording.heightsAbove,
      points: points.slice(start, end),
      segmentStarts: [0, ...inside],
    });
  });
  return tracks;
}
