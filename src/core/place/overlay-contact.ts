import type { GeodeticPoint } from '../earth/site-frame.ts';
import { radiansFromDegrees, signedDegrees } from '../units/angle.ts';
import type { FlatRing, Overlay, OverlayArea } from './overlay.ts';

/**
 * Whether what is flown touches an area of the overlay. All is judged in longitude and latitude, where the lines of
 * GeoJSON are straight (RFC 7946, 3.1.1), unwrapped around the flown points: the antimeridian is a meridian like others.
 */

export interface AreaContact {
  readonly area: OverlayArea;
  /** Inside it or across its edge, at a height within its floor and ceiling. */
  readonly inside: boolean;
  /** From the nearest of what is flown to its edge; 0 when inside. Within 0.5 % at 50 km. */
  readonly distanceMetres: number;
}

const METRES_PER_DEGREE = 111_195;

/** Longitude unwrapped around a first point, latitude: degrees, in one plane. */
interface PlanePoint {
  readonly x: number;
  readonly y: number;
}

/**
 * The no-go areas within `withinMetres` of a polygon or a path flown between two heights, nearest first.
 *
 * @param flown corners of a closed polygon, or of a path, or one point; at least one
 * @param closed true for a polygon, whose inside counts as flown
 * @throws RangeError without points
 */
export function areasTouched(
  overlay: Overlay,
  flown: readonly GeodeticPoint[],
  closed: boolean,
  lowestFeet: number,
  highestFeet: number,
  withinMetres: number,
): AreaContact[] {
  const first = flown[0];
  if (first === undefined) throw new RangeError('areas are judged against at least one point');
  const path = flown.map((point) => ({
    x: signedDegrees(point.longitudeDegrees - first.longitudeDegrees),
    y: point.latitudeDegrees,
  }));
  const contacts: AreaContact[] = [];
  for (const area of overlay.areas) {
    if (!area.noGo || lowestFeet > (area.ceilingFeet ?? Infinity) || highestFeet < (area.floorFeet ?? -Infinity)) continue;
    const distanceMetres = Math.min(Infinity, ...area.polygons.map((polygon) => distanceTo(polygon, path, closed, first, withinMetres)));
    if (distanceMetres <= withinMetres) contacts.push({ area, inside: distanceMetres === 0, distanceMetres });
  }
  return contacts.sort((one, other) => one.distanceMetres - other.distanceMetres);
}

/** 0 when polygon and path share a point; else the distance between their nearest points; Infinity when far. */
function distanceTo(polygon: readonly FlatRing[], path: readonly PlanePoint[], closed: boolean, origin: GeodeticPoint, withinMetres: number): number {
  const [outer, ...holes] = polygon;
  if (outer === undefined) return Infinity;
  let nearestMetres = Infinity;
  // The unwrapped ring may lie a turn away from the path.
  for (const turnDegrees of [-360, 0, 360]) {
    const ring = unwrapped(outer, origin.longitudeDegrees, turnDegrees);
    if (!boxesNear(ring, path, withinMetres)) continue;
    const inner = holes.map((hole) => unwrapped(hole, origin.longitudeDegrees, turnDegrees));
    nearestMetres = Math.min(nearestMetres, planeDistance([ring, ...inner], path, closed));
    if (nearestMetres === 0) return 0;
  }
  return nearestMetres;
}

function planeDistance(rings: readonly Float64Array[], path: readonly PlanePoint[], closed: boolean): number {
  if (path.some((point) => insidePolygon(rings, point))) return 0;
  // An area wholly inside the flown polygon is touched too.
  const [outer] = rings;
  if (closed && outer !== undefined && path.length > 2) {
    const flown = flat(path);
    if (insidePolygon([flown], { x: outer[0] ?? 0, y: outer[1] ?? 0 })) return 0;
  }
  let nearestMetres = Infinity;
  const ends = closed && path.length > 2 ? path.length : Math.max(1, path.length - 1);
  for (let index = 0; index < ends; index += 1) {
    const a = path[index];
    const b = path[(index + 1) % path.length] ?? a;
    if (a === undefined || b === undefined) continue;
    for (const ring of rings) nearestMetres = Math.min(nearestMetres, segmentToRing(a, b, ring));
    if (nearestMetres === 0) return 0;
  }
  return nearestMetres;
}

/** Longitudes relative to the origin's, each the short way from the one before; a step of a whole turn is left as it is. */
function unwrapped(ring: FlatRing, originLongitudeDegrees: number, turnDegrees: number): Float64Array {
  const plane = new Float64Array(ring.length);
  let before = ring[0] ?? 0;
  let x = signedDegrees(before - originLongitudeDegrees) + turnDegrees;
  for (let index = 0; index < ring.length; index += 2) {
    const longitude = ring[index] ?? 0;
    const step = longitude - before;
    x += Math.abs(step) === 360 ? step : signedDegrees(step);
    before = longitude;
    plane[index] = x;
    plane[index + 1] = ring[index + 1] ?? 0;
  }
  return plane;
}

function boxesNear(ring: Float64Array, path: readonly PlanePoint[], withinMetres: number): boolean {
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let index = 0; index < ring.length; index += 2) {
    west = Math.min(west, ring[index] ?? 0);
    east = Math.max(east, ring[index] ?? 0);
    south = Math.min(south, ring[index + 1] ?? 0);
    north = Math.max(north, ring[index + 1] ?? 0);
  }
  const up = withinMetres / METRES_PER_DEGREE;
  // A meridian's degree is shortest at the path's highest latitude.
  const steepest = Math.max(...path.map(({ y }) => Math.abs(y)));
  const across = up / Math.max(0.01, Math.cos(radiansFromDegrees(Math.min(90, steepest))));
  return (
    Math.max(...path.map(({ y }) => y)) >= south - up &&
    Math.min(...path.map(({ y }) => y)) <= north + up &&
    Math.max(...path.map(({ x }) => x)) >= west - across &&
    Math.min(...path.map(({ x }) => x)) <= east + across
  );
}

/** Even-odd over all rings, so that holes are outside. */
function insidePolygon(rings: readonly Float64Array[], { x, y }: PlanePoint): boolean {
  let inside = false;
  for (const ring of rings) {
    for (let index = 0; index + 3 < ring.length; index += 2) {
      const ay = ring[index + 1] ?? 0;
      const by = ring[index + 3] ?? 0;
      if (ay > y === by > y) continue;
      const ax = ring[index] ?? 0;
      const bx = ring[index + 2] ?? 0;
      if (x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
    }
  }
  return inside;
}

function segmentToRing(a: PlanePoint, b: PlanePoint, ring: Float64Array): number {
  let nearestMetres = Infinity;
  // Metres on a plane that touches at the path; far rings are only compared, not measured.
  const scaleX = METRES_PER_DEGREE * Math.cos(radiansFromDegrees((a.y + b.y) / 2));
  const metres = (point: PlanePoint): PlanePoint => ({ x: point.x * scaleX, y: point.y * METRES_PER_DEGREE });
  const [p, q] = [metres(a), metres(b)];
  for (let index = 0; index + 3 < ring.length; index += 2) {
    const r = metres({ x: ring[index] ?? 0, y: ring[index + 1] ?? 0 });
    const s = metres({ x: ring[index + 2] ?? 0, y: ring[index + 3] ?? 0 });
    if (crossing(p, q, r, s)) return 0;
    nearestMetres = Math.min(nearestMetres, toSegment(p, r, s), toSegment(q, r, s), toSegment(r, p, q), toSegment(s, p, q));
  }
  return nearestMetres;
}

function crossing(p: PlanePoint, q: PlanePoint, r: PlanePoint, s: PlanePoint): boolean {
  const side = (a: PlanePoint, b: PlanePoint, c: PlanePoint): number => Math.sign((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
  return side(p, q, r) * side(p, q, s) < 0 && side(r, s, p) * side(r, s, q) < 0;
}

function toSegment(point: PlanePoint, a: PlanePoint, b: PlanePoint): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((point.x - a.x) * dx + (point.y - a.y) * dy) / square));
  return Math.hypot(point.x - a.x - share * dx, point.y - a.y - share * dy);
}

function flat(path: readonly PlanePoint[]): Float64Array {
  const first = path[0];
  const all = first === undefined ? path : [...path, first];
  return Float64Array.from(all.flatMap(({ x, y }) => [x, y]));
}
