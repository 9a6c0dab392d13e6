import { type Track, type TrackPoint, trackSegments } from './track.ts';
import { rfc3339FromMilliseconds } from '../text/utc.ts';

/** A GeoJSON position: longitude, latitude, and a height only above the ellipsoid (RFC 7946, 3.1.1 and 4). */
type Position = readonly number[];

/**
 * GeoJSON text (RFC 7946) of flown tracks: one LineString for each stretch of one ship with the smoke in one state,
 * in order of time, `coordTimes` one for each vertex. A stretch over the antimeridian is cut there (3.1.9). A stretch
 * ends on the point at which the next begins, so that the line has no holes; a lone point stands as a Point.
 */
export function writeTrackGeoJson(tracks: readonly Track[]): string {
  const features = tracks.flatMap((track) =>
    trackSegments(track)
      .flatMap((segment) => stretchesOf(segment))
      .flatMap((stretch) => cutAtAntimeridian(stretch))
      .map((stretch) => feature(track, stretch)),
  );
  return `${JSON.stringify({ type: 'FeatureCollection', features })}\n`;
}

function feature(track: Track, points: readonly TrackPoint[]): object {
  const positions = points.map((point) => position(point, track.heightsAbove === 'ellipsoid'));
  const first = points[0];
  const last = points.at(-1);
  const geometry = positions.length === 1 ? { type: 'Point', coordinates: positions[0] } : { type: 'LineString', coordinates: positions };
  return {
    type: 'Feature',
    geometry,
    properties: {
      ship: track.name,
      smoke: first?.smoke ?? null,
      start: first === undefined ? null : rfc3339FromMilliseconds(first.timeMilliseconds),
      end: last === undefined ? null : rfc3339FromMilliseconds(last.timeMilliseconds),
      coordTimes: points.map(({ timeMilliseconds }) => rfc3339FromMilliseconds(timeMilliseconds)),
      heightsAbove: track.heightsAbove,
      heightsMetres: points.map(({ heightMetres }) => heightMetres),
    },
  };
}

function position({ longitudeDegrees, latitudeDegrees, heightMetres }: TrackPoint, withHeight: boolean): Position {
  const place = [rounded(longitudeDegrees), rounded(latitudeDegrees)];
  return withHeight && heightMetres !== null ? [...place, heightMetres] : place;
}

function stretchesOf(points: readonly TrackPoint[]): TrackPoint[][] {
  const stretches: TrackPoint[][] = [];
  for (const point of points) {
    const current = stretches.at(-1);
    if (current === undefined) {
      stretches.push([point]);
    } else if (current[0]?.smoke === point.smoke) {
      current.push(point);
    } else {
      current.push({ ...point, smoke: current[0]?.smoke ?? null });
      stretches.push([point]);
    }
  }
  return stretches;
}

/** Straight in longitude and latitude, as the format draws lines; the two halves meet at the same latitude. */
function cutAtAntimeridian(points: readonly TrackPoint[]): TrackPoint[][] {
  const parts: TrackPoint[][] = [];
  let current: TrackPoint[] = [];
  let before: TrackPoint | null = null;
  for (const point of points) {
    if (before !== null && Math.abs(point.longitudeDegrees - before.longitudeDegrees) > 180) {
      const east = before.longitudeDegrees > 0;
      const unrolled = point.longitudeDegrees + (east ? 360 : -360);
      const share = ((east ? 180 : -180) - before.longitudeDegrees) / (unrolled - before.longitudeDegrees);
      const between = betweenPoints(before, point, share);
      current.push({ ...between, longitudeDegrees: east ? 180 : -180 });
      parts.push(current);
      current = [{ ...between, longitudeDegrees: east ? -180 : 180 }];
    }
    current.push(point);
    before = point;
  }
  if (current.length > 0) parts.push(current);
  return parts;
}

function betweenPoints(one: TrackPoint, other: TrackPoint, share: number): TrackPoint {
  const mix = (first: number, second: number): number => first + (second - first) * share;
  return {
    timeMilliseconds: mix(one.timeMilliseconds, other.timeMilliseconds),
    latitudeDegrees: mix(one.latitudeDegrees, other.latitudeDegrees),
    longitudeDegrees: 0,
    heightMetres: one.heightMetres === null || other.heightMetres === null ? null : mix(one.heightMetres, other.heightMetres),
    smoke: one.smoke,
  };
}

function rounded(degrees: number): number {
  return Math.round(degrees * 1e7) / 1e7;
}
