import { type Track, type TrackPoint, trackSegments } from './track.ts';
import { rfc3339FromMilliseconds } from '../text/utc.ts';
import { decimalText, xmlText } from './xml-text.ts';

/**
 * KML 2.3 text (OGC 12-007r2, section 10.15): one Placemark for each stretch of a flight without loss of reception,
 * each a `Track` with as many `when` as `coord`, and the smoke beside them as an array of the same length. The
 * namespace is that of KML 2.2, as the schema of 2.3 says; the version attribute is what makes a Track legal.
 *
 * Heights above the sea are absolute; a flight with any other, or with a point without one, is clamped to the ground
 * and says so, for a drawing at a wrong height is worse than one at none.
 */
export function writeKml(tracks: readonly Track[], title: string): string {
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<kml xmlns="http://www.opengis.net/kml/2.2" version="2.3">',
    '<Document>',
    `<name>${xmlText(title)}</name>`,
    '<Schema id="flown"><SimpleArrayField name="smoke" type="string"><displayName>smoke</displayName></SimpleArrayField></Schema>',
  ];
  for (const track of tracks) {
    lines.push('<Folder>', `<name>${xmlText(track.name)}</name>`);
    const absolute = track.heightsAbove === 'sea' && track.points.every(({ heightMetres }) => heightMetres !== null);
    if (!absolute) lines.push('<description>Heights above the sea are not known; drawn on the ground.</description>');
    trackSegments(track).forEach((segment, index) => lines.push(placemark(segment, `${track.name} ${index + 1}`, absolute)));
    lines.push('</Folder>');
  }
  lines.push('</Document>', '</kml>', '');
  return lines.join('\n');
}

function placemark(points: readonly TrackPoint[], name: string, absolute: boolean): string {
  return [
    '<Placemark>',
    `<name>${xmlText(name)}</name>`,
    '<Track>',
    `<altitudeMode>${absolute ? 'absolute' : 'clampToGround'}</altitudeMode>`,
    ...points.map(({ timeMilliseconds }) => `<when>${rfc3339FromMilliseconds(timeMilliseconds)}</when>`),
    ...points.map((point) => `<coord>${coordinates(point, absolute)}</coord>`),
    '<ExtendedData><SchemaData schemaUrl="#flown"><SimpleArrayData name="smoke">',
    ...points.map(({ smoke }) => `<value>${smoke ?? ''}</value>`),
    '</SimpleArrayData></SchemaData></ExtendedData>',
    '</Track>',
    '</Placemark>',
  ].join('\n');
}

function coordinates({ longitudeDegrees, latitudeDegrees, heightMetres }: TrackPoint, absolute: boolean): string {
  return `${decimalText(longitudeDegrees, 7)} ${decimalText(latitudeDegrees, 7)} ${absolute ? decimalText(heightMetres ?? 0, 2) : '0'}`;
}
