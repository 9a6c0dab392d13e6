import { readJsonText } from '../text/json-text.ts';
import { parseWindsAloft } from '../job/winds-aloft.ts';
import { bulletinMilliseconds } from '../job/winds-aloft-times.ts';
import { readAerodromeWeather } from './aerodrome-weather.ts';
import { readModelLevels } from './model-levels.ts';
import { readPlainRows } from './plain-rows.ts';
import { readSounding } from './sounding.ts';
import { readSpotWinds } from './spot-winds.ts';
import { readTable } from './table-rows.ts';
import { NO_CONDITIONS, type WindReadingResult } from './wind-reading.ts';

export interface ReadWindsOptions {
  /** Near which the days lie that name no month: the read time. */
  readonly nearMilliseconds: number;
  /** Of the aerodrome whose cloud bases count from the ground: the site's, where nobody has said another. */
  readonly aerodromeFeet: number;
}

const LONGEST_CHARACTERS = 1_000_000;
const MOST_LINES = 5000;

/**
 * Winds, temperatures, clouds in whatever form they were pasted or loaded, recognised by what is in the text; or why
 * nothing was. Linear in the text's length.
 */
export function readWinds(text: string, { nearMilliseconds, aerodromeFeet }: ReadWindsOptions): WindReadingResult {
  if (text.length > LONGEST_CHARACTERS) return { ok: false, reason: 'the text is longer than any forecast; paste one at a time' };
  const plain = text.replace(/^\uFEFF/, '').replaceAll('\u00a0', ' ');
  const lines = plain.split(/\r\n|\r|\n/);
  if (lines.length > MOST_LINES) return { ok: false, reason: `more than ${MOST_LINES} lines; paste one forecast at a time` };
  const first = lines.find((line) => line.trim() !== '')?.trim() ?? '';
  if (first === '') return { ok: false, reason: 'the text is empty' };
  const at = (dayOfMonth: number, hour: number, minute = 0): number => bulletinMilliseconds({ dayOfMonth, minuteOfDay: hour * 60 + minute }, nearMilliseconds);
  if (/^[{[]/.test(first)) {
    const json = readJsonText(plain);
    return json.ok ? readModelLevels(json.value) : { ok: false, reason: json.reason };
  }
  if (/\bTTAA\b|\bTTBB\b/i.test(plain)) return readSounding(plain, at);
  if (/^(METAR|SPECI|TAF)\b/i.test(first) || /^[A-Z]{4} \d{6}Z\b/i.test(first)) return readAerodromeWeather(plain, aerodromeFeet, at);
  if (lines.some((line) => /^\s*FT\s+\d{4}/i.test(line))) return bulletin(plain, nearMilliseconds);
  const table = readTable(lines);
  if (table.ok) return table;
  // A head line whose units or columns are at fault is told so, not taken for rows.
  if ((first.match(/height|alt|dir|speed|temp|wind/gi)?.length ?? 0) > 1) return table;
  const spot = readSpotWinds(lines);
  const rows = readPlainRows(lines);
  if (!spot.ok || !rows.ok) return spot.ok ? spot : rows;
  // Both can be meant by lines of numbers alone: whichever leaves fewer lines behind.
  return rows.reading.left.length <= spot.reading.left.length ? rows : spot;
}

function bulletin(text: string, nearMilliseconds: number): WindReadingResult {
  const parsed = parseWindsAloft(text);
  if (!parsed.ok) return { ok: false, reason: parsed.reason };
  const { valid, basedOn, stations } = parsed.bulletin;
  const hours = stations.map(({ station, rows }) => ({
    place: station,
    validMilliseconds: valid === null ? null : bulletinMilliseconds(valid, nearMilliseconds),
    issuedMilliseconds: basedOn === null ? null : bulletinMilliseconds(basedOn, nearMilliseconds),
    winds: rows.map(({ altitudeFeet, fromDegreesTrue, speedKnots, temperatureCelsius }) => ({ altitudeFeet, fromDegreesTrue, speedKnots, temperatureCelsius })),
    conditions: NO_CONDITIONS,
  }));
  return { ok: true, reading: { kind: 'bulletin', hours, left: [], notes: [] } };
}
