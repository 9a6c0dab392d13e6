import { XMLParser, XMLValidator } from 'fast-xml-parser';
import svgpath from 'svgpath';
import { middleLine } from './middle-line.ts';
import { pathPoints, tooManyPoints } from './path-points.ts';

/** Path data of a drawing file, and what in it is no line and was passed over, by element name. */
export type SvgPathsRead =
  | {
      readonly ok: true;
      /** What is to be flown: lines, edges of filled shapes, and the middle lines of those that are drawn like a thick line. */
      readonly pathData: string;
      /** Every shape by its edge, as it was drawn. */
      readonly edgeData: string;
      /** How many filled shapes became their middle line. */
      readonly middleLines: number;
      readonly passedOver: readonly string[];
    }
  | { readonly ok: false; readonly reason: string };

/** One element as the parser gives it in document order: one key with its children, the attributes beside it. */
type XmlNode = Readonly<Record<string, unknown>>;
/** The parser is told to leave all values as text. */
type Attributes = Readonly<Record<string, string | undefined>>;

const ATTRIBUTES = ':@';
const FORBIDDEN = /<!\s*(?:DOCTYPE|ENTITY)/i;
const MOST_CHARACTERS = 4_000_000;
/** Middle lines are looked for in so many shapes, in well under a second; further ones keep their edge. */
const MOST_MIDDLES = 60;
/** Elements that hold others; what `defs`, `clipPath`, `mask`, `symbol` and `marker` hold is not drawn itself. */
const GROUPS = new Set(['svg', 'g', 'a', 'switch']);
const UNDRAWN = new Set(['defs', 'clipPath', 'mask', 'symbol', 'marker', 'pattern', 'title', 'desc', 'metadata', 'style', 'script', '#text', '?xml']);

/**
 * The lines of an SVG file (SVG 2: path, line, polyline, polygon, rect, circle, ellipse, groups, `transform`
 * attributes) as one string of path data, to be read by `artworkFromPathData`. Only numbers and command letters come
 * out; nothing of the file is ever shown as markup. Style sheets are passed over: whatever has an outline is drawn. A closed
 * shape that is filled and has no stroke of its own, as attributes and `style` say, is taken by its middle line where it is
 * drawn like a thick line; see `middleLine`.
 *
 * Refused with a reason: not text, over 4 MB, a document type or entity (before any parser sees it), not well
 * formed, not SVG, no lines.
 */
export function pathDataFromSvg(text: unknown): SvgPathsRead {
  if (typeof text !== 'string') return refused('The file is not text.');
  if (text.length > MOST_CHARACTERS)
    return refused(`The file is ${(text.length / 1e6).toFixed(1)} MB; drawings of up to ${MOST_CHARACTERS / 1e6} MB can be read.`);
  if (FORBIDDEN.test(text)) return refused('The file declares a document type or an entity and is not opened. Save the drawing as plain SVG.');
  const checked = XMLValidator.validate(text);
  if (checked !== true) return refused(`Line ${checked.err.line}: the file is damaged or broken off.`);
  let nodes: readonly XmlNode[];
  try {
    const parser = new XMLParser({
      preserveOrder: true,
      ignoreAttributes: false,
      attributeNamePrefix: '',
      removeNSPrefix: true,
      parseTagValue: false,
      parseAttributeValue: false,
      maxNestedTags: 64,
    });
    nodes = parser.parse(text) as readonly XmlNode[];
  } catch {
    return refused('The file cannot be read as XML.');
  }
  const root = nodes.find((node) => Array.isArray(node['svg']));
  if (root === undefined) return refused('The file is XML but not SVG: its outermost element is not svg.');
  const shapes: DrawnShape[] = [];
  const passedOver = new Set<string>();
  collect([root], { transforms: [], fill: '', stroke: '' }, shapes, passedOver);
  if (shapes.length === 0) {
    return refused(
      passedOver.size === 0 ? 'The drawing has no lines.' : `The drawing has no lines, only ${[...passedOver].join(', ')}. Turn them into paths first.`,
    );
  }
  // Before the transforms, which take a long traced line many seconds.
  const tooMany = tooManyPoints(shapes.reduce((sum, { pathData }) => sum + pathPoints(pathData), 0));
  if (tooMany !== null) return refused(tooMany);
  // From the element outwards, as SVG nests them.
  const edges = shapes.map(({ pathData, transforms }) => transforms.reduce((path, each) => path.transform(each), svgpath(pathData).abs()).toString());
  const sought = new Set(shapes.filter(isFilled).slice(0, MOST_MIDDLES));
  const middles = shapes.map((shape, index) => (sought.has(shape) ? middleLine(edges[index] ?? '') : null));
  return {
    ok: true,
    pathData: edges.map((edge, index) => middles[index] ?? edge).join(''),
    edgeData: edges.join(''),
    middleLines: middles.filter((middle) => middle !== null).length,
    passedOver: [...passedOver],
  };
}

function refused(reason: string): SvgPathsRead {
  return { ok: false, reason };
}

/** What an element has of those around it: transforms, innermost first, and how it is painted; empty where nobody says. */
interface Surroundings {
  readonly transforms: readonly string[];
  readonly fill: string;
  readonly stroke: string;
}

/** An element's own path data in its surroundings. */
interface DrawnShape extends Surroundings {
  readonly pathData: string;
}

/** Filled by default (SVG 2 section 13.2), unless it is painted as a line or is none. */
function isFilled({ pathData, fill, stroke }: DrawnShape): boolean {
  return fill !== 'none' && (stroke === '' || stroke === 'none') && /z\s*$/i.test(pathData);
}

/** An attribute, or what `style` says in its place (CSS declarations, SVG 2 section 6.6). */
function painted(attributes: Attributes, name: 'fill' | 'stroke'): string | undefined {
  const declared = new RegExp(`(?:^|;)\\s*${name}\\s*:\\s*([^;]+)`, 'i').exec(attributes['style'] ?? '')?.[1];
  return (declared ?? attributes[name])?.trim().toLowerCase();
}

function collect(nodes: readonly XmlNode[], around: Surroundings, shapes: DrawnShape[], passedOver: Set<string>): void {
  for (const node of nodes) {
    const name = Object.keys(node).find((key) => key !== ATTRIBUTES);
    if (name === undefined || UNDRAWN.has(name)) continue;
    const attributes = (node[ATTRIBUTES] ?? {}) as Attributes;
    const transform = attributes['transform'];
    const own: Surroundings = {
      transforms: transform !== undefined ? [transform, ...around.transforms] : around.transforms,
      fill: painted(attributes, 'fill') ?? around.fill,
      stroke: painted(attributes, 'stroke') ?? around.stroke,
    };
    if (GROUPS.has(name)) {
      collect(node[name] as readonly XmlNode[], own, shapes, passedOver);
      continue;
    }
    const pathData = shapePathData(name, attributes);
    if (pathData === null) {
      passedOver.add(name.replace(/[^A-Za-z]/g, '').slice(0, 20));
    } else if (pathData !== '') {
      shapes.push({ pathData, ...own });
    }
  }
}

/** An element's outline as path data; empty when it draws nothing, null when it is no shape. */
function shapePathData(name: string, attributes: Attributes): string | null {
  const number = (key: string): number => {
    const value = Number.parseFloat(attributes[key] ?? '0');
    return Number.isFinite(value) ? value : 0;
  };
  switch (name) {
    case 'path':
      return attributes['d'] ?? '';
    case 'line':
      return `M${number('x1')} ${number('y1')}L${number('x2')} ${number('y2')}`;
    case 'polyline':
    case 'polygon': {
      const points = (attributes['points'] ?? '').trim();
      return points === '' ? '' : `M${points}${name === 'polygon' ? 'Z' : ''}`;
    }
    case 'circle':
      return ellipse(number('cx'), number('cy'), number('r'), number('r'));
    case 'ellipse':
      return ellipse(number('cx'), number('cy'), number('rx'), number('ry'));
    case 'rect':
      return rectangle(number('x'), number('y'), number('width'), number('height'), number('rx') || number('ry'), number('ry') || number('rx'));
    default:
      return null;
  }
}

function ellipse(x: number, y: number, radiusX: number, radiusY: number): string {
  if (!(radiusX > 0 && radiusY > 0)) return '';
  return `M${x + radiusX} ${y}a${radiusX} ${radiusY} 0 0 1 ${-2 * radiusX} 0a${radiusX} ${radiusY} 0 0 1 ${2 * radiusX} 0Z`;
}

function rectangle(x: number, y: number, width: number, height: number, askedX: number, askedY: number): string {
  if (!(width > 0 && height > 0)) return '';
  const cornerX = Math.min(Math.max(0, askedX), width / 2);
  const cornerY = Math.min(Math.max(0, askedY), height / 2);
  if (cornerX === 0 || cornerY === 0) return `M${x} ${y}h${width}v${height}h${-width}Z`;
  const corner = (toX: number, toY: number): string => `a${cornerX} ${cornerY} 0 0 1 ${toX} ${toY}`;
  return (
    `M${x + cornerX} ${y}h${width - 2 * cornerX}${corner(cornerX, cornerY)}v${height - 2 * cornerY}${corner(-cornerX, cornerY)}` +
    `h${2 * cornerX - width}${corner(-cornerX, -cornerY)}v${2 * cornerY - height}${corner(cornerX, -cornerY)}Z`
  );
}
