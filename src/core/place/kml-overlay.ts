const FEET_PER_METRE = 1 / 0.3048;
const MOST_ELEMENTS = 400_000;
const DEEPEST = 40;

interface KmlElement {
  readonly name: string;
  readonly attributes: string;
  readonly children: KmlElement[];
  text: string;
}

export type KmlReading = { readonly ok: true; readonly collection: unknown } | { readonly ok: false; readonly reason: string };

/**
 * A KML file (OGC KML 2.3, 12-007r2) as GeoJSON: each placemark's points, lines and polygons with its name, and its floor
 * and ceiling from its extended data, or from an absolute altitude of a polygon that is extruded to the ground. Styles,
 * links and pictures are passed over. A document type is refused before anything is read.
 */
export function geoJsonFromKml(text: string): KmlReading {
  if (/<!\s*(?:DOCTYPE|ENTITY)/i.test(text)) return { ok: false, reason: 'the file declares a document type, which no KML needs' };
  const root = readElements(text);
  if (typeof root === 'string') return { ok: false, reason: root };
  const features: unknown[] = [];
  for (const placemark of all(root, 'Placemark')) {
    const properties = propertiesOf(placemark);
    for (const geometry of geometriesOf(placemark)) {
      if (typeof geometry === 'string') return { ok: false, reason: geometry };
      features.push({ type: 'Feature', properties: { ...properties, ...geometry.heights }, geometry: geometry.geometry });
    }
  }
  return features.length === 0
    ? { ok: false, reason: 'the KML holds no placemark with a point, a line or a polygon' }
    : { ok: true, collection: { type: 'FeatureCollection', features } };
}

/** A small reader of XML 1.0 elements, linear in the text: attributes stay text, prefixes fall away. */
function readElements(text: string): KmlElement | string {
  const root: KmlElement = { name: '', attributes: '', children: [], text: '' };
  const stack: KmlElement[] = [root];
  let at = 0;
  let count = 0;
  while (at < text.length) {
    const open = text.indexOf('<', at);
    const now = stack.at(-1) ?? root;
    if (open < 0) break;
    now.text += text.slice(at, open);
    if (text.startsWith('<!--', open)) {
      const end = text.indexOf('-->', open);
      at = end < 0 ? text.length : end + 3;
    } else if (text.startsWith('<![CDATA[', open)) {
      const end = text.indexOf(']]>', open);
      if (end < 0) return 'the file is broken off';
      now.text += text.slice(open + 9, end);
      at = end + 3;
    } else {
      const end = text.indexOf('>', open);
      if (end < 0) return 'the file is broken off';
      const tag = text.slice(open + 1, end);
      at = end + 1;
      if (tag.startsWith('?') || tag.startsWith('!')) continue;
      if (tag.startsWith('/')) {
        if (stack.length === 1 || localName(tag.slice(1)) !== now.name) return `the file is damaged at \u201c<${tag.slice(0, 30)}>\u201d`;
        stack.pop();
        continue;
      }
      count += 1;
      if (count > MOST_ELEMENTS) return `the KML has more than ${MOST_ELEMENTS} elements`;
      const space = tag.search(/[\s/]/);
      const element: KmlElement = {
        name: localName(space < 0 ? tag : tag.slice(0, space)),
        attributes: space < 0 ? '' : tag.slice(space),
        children: [],
        text: '',
      };
      now.children.push(element);
      if (tag.endsWith('/')) continue;
      if (stack.length > DEEPEST) return `the KML is nested more than ${DEEPEST} levels deep`;
      stack.push(element);
    }
  }
  return stack.length === 1 ? root : 'the file is broken off';
}

const localName = (name: string): string => name.trim().split(':').at(-1) ?? '';

function* all(element: KmlElement, name: string): Generator<KmlElement> {
  for (const child of element.children) {
    if (child.name === name) yield child;
    else yield* all(child, name);
  }
}

const first = (element: KmlElement, name: string): KmlElement | null => element.children.find((child) => child.name === name) ?? null;

function textOf(element: KmlElement | null): string {
  return (element?.text ?? '')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&apos;/g, "'")
    .replace(/&amp;/g, '&')
    .trim();
}

/** The name, and what extended data says of floor, ceiling, kind and height. */
function propertiesOf(placemark: KmlElement): Record<string, unknown> {
  const properties: Record<string, unknown> = { name: textOf(first(placemark, 'name')) };
  const take = (name: string, value: string): void => {
    const key = name.toLowerCase();
    const number = Number(value);
    if (/^(floor|lower|lower limit|base)$/.test(key)) properties['floor'] = value;
    else if (/^(ceiling|upper|upper limit|top)$/.test(key)) properties['ceiling'] = value;
    else if (key === 'kind') properties['kind'] = value;
    else if (/^(floorfeet|ceilingfeet|topfeet)$/.test(key) && value !== '' && Number.isFinite(number)) properties[key.replace('feet', 'Feet')] = number;
  };
  for (const data of all(placemark, 'Data')) take(/name\s*=\s*["']([^"']*)["']/.exec(data.attributes)?.[1] ?? '', textOf(first(data, 'value')));
  for (const data of all(placemark, 'SimpleData')) take(/name\s*=\s*["']([^"']*)["']/.exec(data.attributes)?.[1] ?? '', textOf(data));
  return properties;
}

interface Geometry {
  readonly geometry: unknown;
  readonly heights: Readonly<Record<string, number>>;
}

function* geometriesOf(element: KmlElement): Generator<Geometry | string> {
  for (const child of element.children) {
    if (child.name === 'MultiGeometry') yield* geometriesOf(child);
    else if (child.name === 'Point') {
      const points = coordinates(child);
      const [point] = typeof points === 'string' ? [] : points;
      if (typeof points === 'string' || point === undefined) yield typeof points === 'string' ? points : 'a point has no coordinates';
      else
        yield {
          geometry: { type: 'Point', coordinates: point },
          heights: absolute(child) && point[2] !== undefined ? { topFeet: point[2] * FEET_PER_METRE } : {},
        };
    } else if (child.name === 'LineString' || child.name === 'LinearRing') {
      const points = coordinates(child);
      yield typeof points === 'string' ? points : { geometry: { type: 'LineString', coordinates: points }, heights: {} };
    } else if (child.name === 'Polygon') yield polygon(child);
  }
}

function polygon(element: KmlElement): Geometry | string {
  const rings: number[][][] = [];
  for (const name of ['outerBoundaryIs', 'innerBoundaryIs']) {
    for (const boundary of element.children.filter((child) => child.name === name)) {
      const ring = first(boundary, 'LinearRing');
      const points = ring === null ? 'a polygon has no ring' : coordinates(ring);
      if (typeof points === 'string') return points;
      rings.push(points);
    }
  }
  if (rings.length === 0) return 'a polygon has no outer ring';
  const heights = rings[0]?.flatMap((point) => point[2] ?? []) ?? [];
  const toGround = textOf(first(element, 'extrude')) === '1' && absolute(element) && heights.length > 0;
  return { geometry: { type: 'Polygon', coordinates: rings }, heights: toGround ? { ceilingFeet: Math.max(...heights) * FEET_PER_METRE } : {} };
}

const absolute = (element: KmlElement): boolean => textOf(first(element, 'altitudeMode')) === 'absolute';

function coordinates(element: KmlElement): number[][] | string {
  const tuples = textOf(first(element, 'coordinates'))
    .split(/\s+/)
    .filter((tuple) => tuple !== '');
  const points = tuples.map((tuple) => tuple.split(',').map(Number));
  return points.some((point) => point.length < 2 || !point.every(Number.isFinite))
    ? `\u201c${tuples[0]?.slice(0, 30) ?? ''}\u201d are not coordinates: longitude, latitude and height separated by commas`
    : points;
}
