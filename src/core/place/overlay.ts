import * as v from 'valibot';
import type { GeodeticPoint } from '../earth/site-frame.ts';
import { heightLimit, type HeightLimit } from './height-limit.ts';
import { geoJsonFromKml } from './kml-overlay.ts';
import { issueWords } from '../text/issue-words.ts';

/**
 * An overlay of the user's own, GeoJSON (RFC 7946) or KML (OGC 2.3): polygons are areas to stay out of, points are landmarks, lines are
 * kept for looking at. Properties read, all optional: `name`; `kind`, where `area` makes a polygon one to look at
 * only; `floorFeet` and `ceilingFeet` above mean sea level, or `floor` and `ceiling` as they are written (`FL95`, `1000 ft AGL`),
 * without which an area reaches from ground to sky; `topFeet` of a point, an obstacle's top above mean sea level.
 */

/** A ring of a polygon: flat, longitude and latitude in turn, in degrees, first point repeated at the end. */
export type FlatRing = Float64Array;

export interface OverlayArea {
  readonly name: string;
  readonly noGo: boolean;
  readonly floorFeet: number | null;
  readonly ceilingFeet: number | null;
  /** Floor and ceiling as the file has them, with their datum; empty where it has numbers alone. */
  readonly heightsSaid: string;
  /** Each polygon's outer ring first, then its holes. */
  readonly polygons: readonly (readonly FlatRing[])[];
}

export interface Landmark extends GeodeticPoint {
  readonly name: string;
  /** An obstacle's top above mean sea level; null for a place without one. */
  readonly topFeet: number | null;
}

export interface OverlayLine {
  readonly name: string;
  readonly points: FlatRing;
}

export interface Overlay {
  readonly areas: readonly OverlayArea[];
  readonly landmarks: readonly Landmark[];
  readonly lines: readonly OverlayLine[];
}

export type ParsedOverlay = { readonly ok: true; readonly overlay: Overlay } | { readonly ok: false; readonly reason: string };

/** A file of 20 MB is the largest that is read; it takes about a second. */
export const LONGEST_OVERLAY_CHARACTERS = 20_000_000;
const MOST_FEATURES = 20_000;
const MOST_VERTICES = 1_000_000;
const LONGEST_NAME = 200;

const feet = v.nullish(v.pipe(v.number(), v.finite()), null);
const properties = v.nullish(
  v.looseObject({
    name: v.nullish(
      v.pipe(
        v.unknown(),
        v.transform((name) => (typeof name === 'string' ? name.slice(0, LONGEST_NAME) : '')),
      ),
      '',
    ),
    kind: v.nullish(v.unknown()),
    floorFeet: feet,
    ceilingFeet: feet,
    topFeet: feet,
    floor: v.nullish(v.unknown()),
    ceiling: v.nullish(v.unknown()),
  }),
);
// Coordinates are checked by hand below: a million of them through a schema would take a minute.
const geometry = v.nullable(v.looseObject({ type: v.string(), coordinates: v.optional(v.unknown()) }));
const feature = v.looseObject({ type: v.literal('Feature'), geometry, properties });
const collection = v.looseObject({
  type: v.literal('FeatureCollection'),
  features: v.pipe(v.array(v.unknown()), v.maxLength(MOST_FEATURES, `more than ${MOST_FEATURES} features`)),
});

class OverlayFault extends Error {}

/** What is left of a file's budget of vertices while it is read. */
interface Budget {
  vertices: number;
}

/** What a file is that is no overlay, by how it begins, in plain words; null for text that may be JSON. */
function wrongFile(text: string): string | null {
  const start = text.slice(0, 2000).trimStart();
  if (start === '') return 'the file is empty';
  if (start.startsWith('PK')) return 'it is a packed file (such as KMZ): unpack it, and load the KML in it';
  if (/^(\ufffd?PNG|\ufffdPNG|GIF8|\ufffd{2})/.test(start)) return 'it is a picture';
  if (/<gpx[\s>]/i.test(start)) return 'it is a recorded track (GPX): those go to Debrief';
  if (/<html|<!doctype html/i.test(start)) return 'it is a web page; save the file itself';
  if (start.startsWith('<')) return 'it is XML, but no KML';
  return /^[{[]/.test(start) ? null : 'it is neither GeoJSON nor KML';
}

/** The overlay in a text of GeoJSON or KML, or why not, naming the feature. */
export function parseOverlayText(text: string): ParsedOverlay {
  if (text.length > LONGEST_OVERLAY_CHARACTERS) {
    return { ok: false, reason: `the overlay is ${(text.length / 1e6).toFixed(1)} MB; at most 20 MB are read. Cut it to the surroundings of the site` };
  }
  if (/^\uFEFF?\s*<(?:\?xml[^>]*>\s*)?(?:<!--[^>]*-->\s*)?<?(?:\w+:)?kml[\s>]/i.test(text.slice(0, 2000))) {
    const kml = geoJsonFromKml(text);
    return kml.ok ? parseOverlay(kml.collection) : { ok: false, reason: kml.reason };
  }
  const wrong = wrongFile(text);
  if (wrong !== null) return { ok: false, reason: wrong };
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return { ok: false, reason: 'the file is cut off or damaged: it begins as GeoJSON and does not end as such' };
  }
  return parseOverlay(value);
}

/** The overlay in a parsed GeoJSON value: a feature collection or one feature. */
export function parseOverlay(value: unknown): ParsedOverlay {
  const single = v.safeParse(feature, value);
  const many = v.safeParse(collection, value);
  if (!single.success && !many.success) {
    const issue = many.issues[0];
    const where = v.getDotPath(issue);
    return { ok: false, reason: `the overlay is not a GeoJSON FeatureCollection: ${where === null ? 'it' : where} ${issueWords(issue)}` };
  }
  const features = many.success ? many.output.features : [value];
  const budget: Budget = { vertices: MOST_VERTICES };
  const found = { areas: [] as OverlayArea[], landmarks: [] as Landmark[], lines: [] as OverlayLine[] };
  for (const [index, each] of features.entries()) {
    try {
      readFeature(each, found, budget);
    } catch (error) {
      if (!(error instanceof OverlayFault)) throw error;
      return { ok: false, reason: `feature ${index + 1} of the overlay: ${error.message}` };
    }
  }
  return { ok: true, overlay: found };
}

function readFeature(value: unknown, found: { areas: OverlayArea[]; landmarks: Landmark[]; lines: OverlayLine[] }, budget: Budget): void {
  const read = v.safeParse(feature, value);
  if (!read.success) {
    const issue = read.issues[0];
    throw new OverlayFault(`${v.getDotPath(issue) ?? 'it'} ${issueWords(issue)}`);
  }
  const { geometry: shape, properties: about } = read.output;
  if (shape === null) return;
  const name = about?.name ?? '';
  const { type, coordinates } = shape;
  if (type === 'Polygon' || type === 'MultiPolygon') {
    const polygons = type === 'Polygon' ? [coordinates] : list(coordinates, 'coordinates');
    const floor = limitOf(about?.floor, 'floor');
    const ceiling = limitOf(about?.ceiling, 'ceiling');
    found.areas.push({
      name,
      noGo: about?.kind !== 'area',
      floorFeet: about?.floorFeet ?? floor?.feet ?? null,
      ceilingFeet: about?.ceilingFeet ?? ceiling?.feet ?? null,
      heightsSaid: floor === null && ceiling === null ? '' : `${floor?.written ?? 'ground'} to ${ceiling?.written ?? 'unlimited'}`,
      polygons: polygons.map((polygon) => list(polygon, 'a polygon').map((ring) => flatRing(ring, budget))),
    });
  } else if (type === 'Point' || type === 'MultiPoint') {
    for (const point of type === 'Point' ? [coordinates] : list(coordinates, 'coordinates')) {
      const flat = flatPoints([point], budget);
      found.landmarks.push({ name, topFeet: about?.topFeet ?? null, longitudeDegrees: flat[0] ?? 0, latitudeDegrees: flat[1] ?? 0 });
    }
  } else if (type === 'LineString' || type === 'MultiLineString') {
    for (const line of type === 'LineString' ? [coordinates] : list(coordinates, 'coordinates')) {
      found.lines.push({ name, points: flatPoints(list(line, 'a line'), budget) });
    }
  } else {
    // A collection might hide an area to stay out of, so it is not passed over in silence.
    throw new OverlayFault(`its geometry is a ${type.slice(0, 40)}; polygons, lines and points are read`);
  }
}

/** A floor or ceiling that is written and not understood is told: an area must not lose its height in silence. */
function limitOf(value: unknown, side: 'floor' | 'ceiling'): HeightLimit | null {
  if (value === null || value === undefined || value === '') return null;
  const limit = typeof value === 'string' ? heightLimit(value, side) : typeof value === 'number' ? heightLimit(`${value} ft`, side) : null;
  if (limit === null)
    throw new OverlayFault(
      `its ${side} \u201c${typeof value === 'string' ? value.slice(0, 40) : typeof value}\u201d is no height such as 2500 ft AMSL, FL95 or GND`,
    );
  return limit;
}

function flatRing(value: unknown, budget: Budget): FlatRing {
  const ring = flatPoints(list(value, 'a ring'), budget);
  const last = ring.length - 2;
  if (ring.length < 8) throw new OverlayFault('a ring has under four points');
  if (ring[0] !== ring[last] || ring[1] !== ring[last + 1]) throw new OverlayFault('a ring does not end where it begins');
  return ring;
}

function flatPoints(points: readonly unknown[], budget: Budget): FlatRing {
  budget.vertices -= points.length;
  if (budget.vertices < 0) throw new OverlayFault(`the overlay has more than ${MOST_VERTICES} points; cut it to the surroundings of the site`);
  const flat = new Float64Array(2 * points.length);
  for (const [index, point] of points.entries()) {
    const [longitude, latitude] = Array.isArray(point) ? (point as unknown[]) : [];
    if (typeof longitude !== 'number' || typeof latitude !== 'number' || !Number.isFinite(longitude) || !(Math.abs(latitude) <= 90)) {
      throw new OverlayFault(`point ${index + 1} is not a longitude and a latitude (in that order) in degrees`);
    }
    if (Math.abs(longitude) > 540) throw new OverlayFault(`point ${index + 1} has a longitude of ${longitude}`);
    flat[2 * index] = longitude;
    flat[2 * index + 1] = latitude;
  }
  return flat;
}

function list(value: unknown, what: string): unknown[] {
  if (!Array.isArray(value)) throw new OverlayFault(`${what} is not a list`);
  return value as unknown[];
}
