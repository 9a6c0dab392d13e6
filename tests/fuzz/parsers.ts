import { readFileSync } from 'node:fs';
import { flightEventFromRow } from '../../src/app/flight/flight-event-from-row.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { frameFromText, framesFromText, textFromFrames, withFrame, type FrameCollection } from '../../src/core/wire/link-frames.ts';
import { linkMessageFrom } from '../../src/core/wire/link-parse.ts';
import { aircraftFromReceiver, RECEIVER_MAPPING } from '../../src/core/wire/link-receiver.ts';
import { linkTopicFromText } from '../../src/core/wire/link-topics.ts';
import { parseJob } from '../../src/core/job/parse-job.ts';
import { parseObserverLog } from '../../src/core/wire/parse-observer-log.ts';
import { readTracks } from '../../src/core/tracks/track-read.ts';
import { writeJob } from '../../src/core/job/write-job.ts';
import { parseWindsAloft } from '../../src/core/job/winds-aloft.ts';
import { artworkFromPathData } from '../../src/core/artwork/artwork.ts';
import { pathDataFromSvg } from '../../src/core/artwork/svg-paths.ts';
import { readWinds } from '../../src/core/winds/read-winds.ts';
import { parseOverlayText } from '../../src/core/place/overlay.ts';
import { readingFromRows } from '../../src/store/read-log.ts';
import { rowChecksum } from '../../src/store/row-checksum.ts';
import type { StoredRow } from '../../src/store/schema.ts';

/** What a parser made of a text: a value, or a reason that a person reads; `silent` where nothing is said by design. */
export type Parsed =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly reason: string }
  | { readonly ok: false; readonly silent: true };

/** A parser of outside data, with files it takes. */
export interface FuzzedParser {
  readonly name: string;
  readonly valid: readonly string[];
  readonly parse: (text: string) => Parsed;
}

const kept = (name: string): string => readFileSync(new URL(`../faults/kept/${name}`, import.meta.url), 'utf8');
const silent = { ok: false, silent: true } as const;
const orSilent = (value: unknown): Parsed => (value === null ? silent : { ok: true, value });

const WINDS = `DATA BASED ON 010600Z
VALID 011200Z   FOR USE 0800-1700Z. TEMPS NEG ABV 24000
FT  3000    6000    9000   12000   18000   24000  30000  34000  39000
ALB 2714 2725+00 2625-04 2531-08 2542-18 2550-30 256145 256655 256560
MSS      9900+01 2709-03 2518-07 2433-19 2545-31 750650 751057 255362`;
const OVERLAY = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      properties: { name: 'Quay', kind: 'no-go', floorFeet: 0, ceilingFeet: 12_000 },
      geometry: {
        type: 'Polygon',
        coordinates: [
          [
            [-74.4, 43.9],
            [-74.3, 43.9],
            [-74.3, 44],
            [-74.4, 43.9],
          ],
        ],
      },
    },
    { type: 'Feature', properties: { name: 'Light' }, geometry: { type: 'Point', coordinates: [-74.38, 43.91] } },
    {
      type: 'Feature',
      properties: null,
      geometry: {
        type: 'LineString',
        coordinates: [
          [-74.4, 43.9],
          [-74.35, 43.95],
        ],
      },
    },
  ],
});
const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><g transform="translate(5 5) rotate(10)"><path d="M10 10 H90 V90 C80 95 60 95 50 90 A20 20 0 0 1 10 90 Z"/><circle cx="50" cy="50" r="30"/><polyline points="1,1 20,20 40,1"/></g></svg>';
const SENDER = { v: 1, device: 'lead', boot: 'b1', sentAtMilliseconds: 1_800_000_000_000 };
const MESSAGES = [
  {
    ...SENDER,
    eventCount: 4,
    shipIndex: 0,
    fix: { ageSeconds: 0.4, latitudeDegrees: 43.9, longitudeDegrees: -74.4, altitudeMetres: null, trackDegreesTrue: 360, groundSpeedMetresPerSecond: 55 },
    phase: 'stroke',
    smoke: 'on',
    strokeNumber: 1,
    strokeCount: 9,
    character: 'S',
    windFromDegreesTrue: null,
    windSpeedMetresPerSecond: null,
  },
  {
    ...SENDER,
    sequence: 3,
    atMilliseconds: SENDER.sentAtMilliseconds,
    kind: 'laid',
    letterIndex: 0,
    character: 'S',
    fromMilliseconds: SENDER.sentAtMilliseconds,
    secondsAfter: [0, 1, 2],
    latitudesDegrees: [43.9, 43.9, 43.9],
    longitudesDegrees: [-74.4, -74.39, -74.38],
  },
  { ...SENDER, sequence: 4, atMilliseconds: SENDER.sentAtMilliseconds, kind: 'call', call: 'traffic', letterIndex: null, character: null },
].map((message) => JSON.stringify(message));
const TOPICS = ['ship/lead/state', 'ship/lead/event', 'ship/lead/link', 'ground/lead/event'].map((end) => `quillwind/1/lake-ondine/${end}`);
const OBSERVER = JSON.stringify({
  format: 'quillwind-observer',
  version: 1,
  jobId: 'lake-ondine',
  jobDigest: null,
  observerId: 'anna',
  observerName: 'Pier',
  entries: [{ sequence: 0, atMilliseconds: 1_800_000_000_000, sinceDatumSeconds: null, kind: 'noted', text: 'wind off the lake' }],
});
const ROWS = (JSON.parse(kept('rows.json')) as StoredRow[]).slice(0, 40);
const FRAMES = framesFromText(writeJob(DEMO_JOB), 'a');
const RECEIVER = JSON.stringify({ now: 1_800_000_000, aircraft: [{ hex: 'a1b2c3', flight: 'LEAD ', lat: 43.9, lon: -74.4, alt_geom: 10_500, seen_pos: 1.2 }] });

/** A GPX or IGC file of a few points: many small files find more than few large ones. */
const shortened = (name: string): string => {
  const text = kept(name);
  return name.endsWith('gpx')
    ? text.replace(/(<trkpt(?:(?!<\/trkpt>).)*<\/trkpt>\s*)+/s, (points) => points.split('</trkpt>').slice(0, 6).join('</trkpt>') + '</trkpt>')
    : text
        .split('\n')
        .filter((line, index) => !line.startsWith('B') || index % 5 === 0)
        .join('\n');
};

/** Every parser of data from outside, the stored rows among them. */
/** Each form in which winds and weather come, by name, with samples. */
export const WIND_FORMS: readonly (readonly [form: string, ...samples: string[]])[] = [
  ['plain rows', '3000 250/12 +8\n6000 260/18 +2\nFL100 270/25KT -3', '1500 m 180 / 20 km/h'],
  ['table', 'Temp (C),Speed (km/h),Height (m),Direction\n-2,36,3000,270', 'time;height (ft);dir;speed (kt)\n2027-06-19T12:00Z;3000;250;12,5'],
  ['spot winds', '5230N 00230W\n24 310 65 -34\n10 270 30 MS02\n05 250 20 PS06\n02 VRB 03 PS11'],
  [
    'sounding',
    'TTAA 66001 68994 99011 10427 34019 00117 09632 34019 92767 10429 01022 85465 06437 35034 70049 03886 35035=\nTTBB 66008 68994 00011 10427 21212 00011 34019 11900 01030',
  ],
  [
    'model levels',
    '{"time":"2027-06-19T12:00Z","speedUnit":"m/s","levels":[{"geopotentialHeight":3000,"windDirection":300,"windSpeed":25,"temperature":2}]}',
    '{"hourly_units":{"wind_speed_850hPa":"km/h"},"hourly":{"time":["2027-06-19T12:00"],"wind_speed_850hPa":[36],"wind_direction_850hPa":[250],"geopotential_height_850hPa":[1500]}}',
  ],
  [
    'METAR',
    'METAR YUDO 221630Z 24004MPS 0600 R12/1000U DZ FG SCT010 OVC020 17/16 Q1018 BECMG TL1700 0800 FG',
    'KODN 191553Z 27008KT 1 1/2SM BKN012 18/12 A2992',
  ],
  [
    'TAF',
    'TAF YUDO 151800Z 1600/1618 13005MPS 9000 BKN020 BECMG 1606/1608 SCT015CB BKN020 TEMPO 1608/1612 17006G12MPS 1000 TSRA FM161230 15004MPS 9999 BKN020',
  ],
];

export const PARSERS: readonly FuzzedParser[] = [
  { name: 'job file', valid: [writeJob(DEMO_JOB), kept('job.json')], parse: parseJob },
  {
    name: 'winds text',
    valid: [WINDS, WINDS.toLowerCase().replaceAll('\n', '\r\n')],
    parse: (text) => {
      const read = parseWindsAloft(text);
      return read.ok ? { ok: true, value: read } : read;
    },
  },
  ...WIND_FORMS.map(([form, ...valid]) => ({
    name: `winds: ${form}`,
    valid,
    parse: (text: string): Parsed => {
      const read = readWinds(text, { nearMilliseconds: Date.UTC(2027, 5, 19), aerodromeFeet: 1640 });
      return read.ok ? { ok: true, value: read.reading.hours.map(({ winds, conditions }) => [winds, conditions]) } : { ok: false, reason: read.reason };
    },
  })),
  { name: 'GPX', valid: [shortened('track.gpx')], parse: readTracks },
  { name: 'IGC', valid: [shortened('track.igc')], parse: readTracks },
  {
    name: 'GeoJSON',
    valid: [OVERLAY],
    parse: (text) => {
      const read = parseOverlayText(text);
      return read.ok ? { ok: true, value: read.overlay } : read;
    },
  },
  {
    name: 'SVG',
    valid: [SVG, 'M0 0 L10 0 L10 10 Z', 'M 600 0 A 600 600 0 1 1 -600 0 A 600 600 0 1 1 600 0'],
    parse: (text) => {
      const paths = text.trimStart().startsWith('<') ? pathDataFromSvg(text) : { ok: true as const, pathData: text };
      if (!paths.ok) return paths;
      const read = artworkFromPathData(paths.pathData, { depthMetres: 1200, turnRadiusMetres: 293 });
      return read.ok ? { ok: true, value: read.artwork } : read;
    },
  },
  {
    name: 'MQTT payload',
    valid: MESSAGES,
    parse: (text) => {
      const results = TOPICS.map((topic) => linkMessageFrom(topic, text));
      return results.find(({ ok }) => ok) ?? results[0]!;
    },
  },
  { name: 'MQTT topic', valid: TOPICS, parse: (text) => orSilent(linkTopicFromText(text)) },
  {
    name: 'stored rows',
    valid: [JSON.stringify(ROWS), JSON.stringify(ROWS.slice(0, 3))],
    parse: (text) => {
      let rows: unknown;
      try {
        rows = JSON.parse(text);
      } catch {
        return silent;
      }
      const values: readonly unknown[] = Array.isArray(rows) ? rows : [rows];
      // Half of them signed anew, as if damage had hit row and checksum alike.
      const signed = values.map((value, index) => (index % 2 === 0 && isRow(value) ? { ...value, checksum: rowChecksum(value) } : value));
      const reading = readingFromRows(
        signed.map((_, index) => index),
        signed,
      );
      // What an event says is judged by the reducer's own tests; JSON holds numbers that a row was never written with.
      return { ok: true, value: { ...reading, rows: reading.rows.map(({ sequence, event }) => [sequence, flightEventFromRow(event)?.kind ?? null]) } };
    },
  },
  { name: 'observer log', valid: [OBSERVER], parse: parseObserverLog },
  {
    name: 'code frames',
    valid: [FRAMES.join('\n')],
    parse: (text) => {
      const frames = text
        .split('\n')
        .map(frameFromText)
        .filter((frame) => frame !== null);
      const all = frames.reduce<FrameCollection | null>((collection, frame) => withFrame(collection, frame), null);
      return all === null ? silent : orSilent(textFromFrames(all));
    },
  },
  {
    name: 'receiver',
    valid: [RECEIVER],
    parse: (text) => {
      const read = aircraftFromReceiver(text, RECEIVER_MAPPING);
      return read.ok ? { ok: true, value: read } : read;
    },
  },
];

function isRow(value: unknown): value is StoredRow {
  if (typeof value !== 'object' || value === null) return false;
  const { flightId, sequence, monotonicSeconds, wallMilliseconds, eventText } = value as Partial<Record<keyof StoredRow, unknown>>;
  return (
    typeof flightId === 'string' && typeof eventText === 'string' && [sequence, monotonicSeconds, wallMilliseconds].every((each) => typeof each === 'number')
  );
}
