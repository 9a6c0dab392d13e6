import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { cleanName } from '../text/clean-name.ts';
import { type RawRecording, tracksFromRecordings } from './raw-points.ts';
import { createReadFaults, type ReadFaults } from '../text/read-faults.ts';
import { type ReadResult, type TrackPoint, type TracksRead } from './track.ts';
import { trackTextFrom } from './track-text.ts';
import { millisecondsFromRfc3339 } from '../text/utc.ts';

/** One element as the parser gives it in document order: one key with its children, the attributes beside it. */
type XmlNode = Readonly<Record<string, unknown>>;

const ATTRIBUTES = ':@';
const FORBIDDEN = /<!\s*(?:DOCTYPE|ENTITY)/i;
const METADATA = XMLParser.getMetaDataSymbol();

/**
 * Tracks of a GPX file (1.1, and 1.0, which differs in nothing read here). Each `trk` is a recording, each `trkseg` a
 * stretch without loss of reception; `type` of a point tells the smoke as {@link writeGpx} writes it.
 *
 * Refused with a reason: not text, empty, over 48 MB, a document type or entity (before any parser sees it), not well
 * formed or broken off (with the line), no track points, more than 1 % of the points unreadable. Points without a
 * time are unreadable; routes and waypoints are passed over.
 */
export function readGpx(input: unknown): ReadResult<TracksRead> {
  const whole = trackTextFrom(input);
  if (!whole.ok) return whole;
  const text = whole.value;
  const forbiddenAt = text.search(FORBIDDEN);
  if (forbiddenAt >= 0)
    return {
      ok: false,
      reason: `Line ${lineAt(text, forbiddenAt)}: the file declares a document type or an entity, which no recorder needs. It is not opened.`,
    };
  const checked = XMLValidator.validate(text);
  if (checked !== true) return { ok: false, reason: `Line ${checked.err.line}: the file is damaged or broken off (${cleanName(checked.err.msg)}).` };
  let nodes: readonly XmlNode[];
  try {
    nodes = createParser().parse(text) as readonly XmlNode[];
  } catch (error) {
    return { ok: false, reason: `The file cannot be read as XML: ${cleanName(error instanceof Error ? error.message : String(error))}.` };
  }
  const root = nodes.find((node) => childrenOf(node, 'gpx') !== null);
  if (root === undefined) return { ok: false, reason: 'The file is XML but not GPX: its outermost element is not gpx.' };
  const faults = createReadFaults();
  const recordings = elements(root, 'gpx', 'trk').map((track, index) => recordingFrom(track, index, text, faults));
  const refusal = faults.refusal(recordings.reduce((sum, { points }) => sum + points.length, 0));
  if (refusal !== null) return { ok: false, reason: refusal };
  return tracksFromRecordings(recordings, faults.warnings());
}

function createParser(): XMLParser {
  return new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: '',
    removeNSPrefix: true,
    parseTagValue: false,
    parseAttributeValue: false,
    captureMetaData: true,
    maxNestedTags: 32,
  });
}

function recordingFrom(track: XmlNode, index: number, text: string, faults: ReadFaults): RawRecording {
  const points: TrackPoint[] = [];
  const segmentStarts: number[] = [];
  for (const segment of elements(track, 'trk', 'trkseg')) {
    const before = points.length;
    for (const node of elements(segment, 'trkseg', 'trkpt')) {
      const point = pointFrom(node);
      if (typeof point === 'string') faults.add(lineOf(node, text), point);
      else points.push(point);
    }
    if (points.length > before) segmentStarts.push(before);
  }
  return { name: cleanName(childText(track, 'trk', 'name') ?? '') || `Track ${index + 1}`, heightsAbove: 'sea', points, segmentStarts };
}

function pointFrom(node: XmlNode): TrackPoint | string {
  const attributes = node[ATTRIBUTES] as Readonly<Record<string, unknown>> | undefined;
  const latitudeDegrees = numberFrom(attributes?.['lat']);
  const longitudeDegrees = numberFrom(attributes?.['lon']);
  if (latitudeDegrees === null || Math.abs(latitudeDegrees) > 90) return 'the latitude is no number from -90 to 90';
  if (longitudeDegrees === null || Math.abs(longitudeDegrees) > 180) return 'the longitude is no number from -180 to 180';
  const time = childText(node, 'trkpt', 'time');
  if (time === null) return 'the point has no time';
  const timeMilliseconds = millisecondsFromRfc3339(time.trim());
  if (timeMilliseconds === null) return 'the time is not written as RFC 3339 wants it';
  const type = childText(node, 'trkpt', 'type');
  return {
    timeMilliseconds,
    latitudeDegrees,
    longitudeDegrees: longitudeDegrees === 180 ? -180 : longitudeDegrees,
    heightMetres: numberFrom(childText(node, 'trkpt', 'ele')),
    smoke: type === 'smoke on' ? 'on' : type === 'smoke off' ? 'off' : null,
  };
}

function numberFrom(value: unknown): number | null {
  if (typeof value !== 'string' || !/^\s*[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*$/.test(value)) return null;
  const number = Number(value);
  return Number.isFinite(number) ? number : null;
}

function childrenOf(node: XmlNode, tag: string): readonly XmlNode[] | null {
  const children = node[tag];
  return Array.isArray(children) ? (children as readonly XmlNode[]) : null;
}

function elements(parent: XmlNode, parentTag: string, tag: string): readonly XmlNode[] {
  return (childrenOf(parent, parentTag) ?? []).filter((child) => childrenOf(child, tag) !== null);
}

function childText(parent: XmlNode, parentTag: string, tag: string): string | null {
  const child = childrenOf(parent, parentTag)?.find((candidate) => childrenOf(candidate, tag) !== null);
  if (child === undefined) return null;
  return (childrenOf(child, tag) ?? []).map((part) => (typeof part['#text'] === 'string' ? part['#text'] : '')).join('');
}

function lineOf(node: XmlNode, text: string): number {
  const metadata = (node as Readonly<Record<symbol, { readonly startIndex?: number } | undefined>>)[METADATA as unknown as symbol];
  return lineAt(text, metadata?.startIndex ?? 0);
}

function lineAt(text: string, index: number): number {
  let line = 1;
  for (let at = text.indexOf('\n'); at !== -1 && at < index; at = text.indexOf('\n', at + 1)) line += 1;
  return line;
}
