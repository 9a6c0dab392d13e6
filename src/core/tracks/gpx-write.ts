import { type Track, type TrackPoint, trackSegments } from './track.ts';
import { rfc3339FromMilliseconds } from '../text/utc.ts';
import { decimalText, xmlText } from './xml-text.ts';

/** Seven decimals of a degree are 1 cm. */
const DEGREE_DECIMALS = 7;

/**
 * GPX 1.1 text, valid against its schema (elements in the schema's order, longitude under 180, no exponents). A ship
 * is a `trk`, a stretch between losses of reception a `trkseg`; the smoke stands in the point's `type` as `smoke on`
 * or `smoke off`. GPX heights count from the sea: those known to count from elsewhere are left out.
 *
 * @param creator who wrote the file, as the schema demands
 */
export function writeGpx(tracks: readonly Track[], creator: string): string {
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<gpx version="1.1" creator="${xmlText(creator)}" xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd">`,
  ];
  for (const track of tracks) {
    lines.push('<trk>', `<name>${xmlText(track.name)}</name>`);
    for (const segment of trackSegments(track)) {
      lines.push('<trkseg>');
      for (const point of segment) lines.push(pointText(point, track.heightsAbove === 'sea' || track.heightsAbove === 'unknown'));
      lines.push('</trkseg>');
    }
    lines.push('</trk>');
  }
  lines.push('</gpx>', '');
  return lines.join('\n');
}

function pointText(point: TrackPoint, withHeight: boolean): string {
  const longitude = decimalText(point.longitudeDegrees, DEGREE_DECIMALS);
  const height = withHeight && point.heightMetres !== null ? `<ele>${decimalText(point.heightMetres, 2)}</ele>` : '';
  const type = point.smoke === null ? '' : `<type>smoke ${point.smoke}</type>`;
  // The schema's longitude ends short of 180, and rounding may reach it.
  return `<trkpt lat="${decimalText(point.latitudeDegrees, DEGREE_DECIMALS)}" lon="${longitude === '180' ? '-180' : longitude}">${height}<time>${rfc3339FromMilliseconds(point.timeMilliseconds)}</time>${type}</trkpt>`;
}
