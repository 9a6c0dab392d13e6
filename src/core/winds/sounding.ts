import type { JobWind } from '../job/job.ts';
import { METRES_PER_FOOT, METRES_PER_NAUTICAL_MILE } from '../units/quantity.ts';
import { type LineLeft, NO_CONDITIONS, windFault, type WindReadingResult, windRow } from './wind-reading.ts';

/**
 * Pressure levels of part A, hPa, by their two figures, and how the three figures of their height are filled up (WMO-No.
 * 306, Manual on Codes, FM 35 TEMP: hhh in metres up to 700 hPa, in tens of metres from 500 hPa on).
 */
const LEVELS: Readonly<Record<string, { readonly hPa: number; readonly metres: (hhh: number) => number }>> = {
  '00': { hPa: 1000, metres: (hhh) => (hhh >= 500 ? 500 - hhh : hhh) },
  '92': { hPa: 925, metres: (hhh) => hhh },
  '85': { hPa: 850, metres: (hhh) => 1000 + hhh },
  '70': { hPa: 700, metres: (hhh) => (hhh >= 500 ? 2000 : 3000) + hhh },
  '50': { hPa: 500, metres: (hhh) => hhh * 10 },
  '40': { hPa: 400, metres: (hhh) => hhh * 10 },
  '30': { hPa: 300, metres: (hhh) => (hhh < 300 ? 10_000 : 0) + hhh * 10 },
  '25': { hPa: 250, metres: (hhh) => (hhh < 600 ? 10_000 : 0) + hhh * 10 },
  '20': { hPa: 200, metres: (hhh) => 10_000 + hhh * 10 },
  '15': { hPa: 150, metres: (hhh) => 10_000 + hhh * 10 },
  '10': { hPa: 100, metres: (hhh) => 10_000 + hhh * 10 },
};

interface Point {
  readonly hPa: number;
  readonly metres: number | null;
  readonly celsius: number | null;
  readonly wind: { readonly fromDegrees: number; readonly speed: number } | null;
}

/** TTTDD: tenths of a degree, their last figure even above zero, odd below (code table 3931). */
function temperatureOf(group: string | undefined): number | null {
  const tenths = /^(\d{3})/.exec(group ?? '')?.[1];
  if (tenths === undefined) return null;
  const value = Number(tenths) / 10;
  return Number(tenths) % 2 === 0 ? value : -value;
}

/** ddfff: direction to five degrees, of which the odd five stands as 500 in the speed. */
function windOf(group: string | undefined): Point['wind'] {
  const [, dd, fff] = /^(\d\d)(\d\d\d)$/.exec(group ?? '') ?? [];
  if (dd === undefined || fff === undefined || Number(dd) > 36) return null;
  const half = Number(fff) >= 500;
  return { fromDegrees: (Number(dd) * 10 + (half ? 5 : 0)) % 360, speed: Number(fff) - (half ? 500 : 0) };
}

/**
 * A radiosonde's message, FM 35 TEMP: the standard levels of TTAA, and the winds and temperatures of TTBB between them, at
 * heights by the pressures of TTAA (in the logarithm of pressure, which is exact in air of one temperature). Speeds are
 * knots when 50 was added to the day, metres a second otherwise.
 *
 * @param nearMilliseconds around which the message's day lies; it names no month
 */
export function readSounding(text: string, dayMilliseconds: (dayOfMonth: number, hour: number) => number): WindReadingResult {
  const left: LineLeft[] = [];
  const groups = text
    .toUpperCase()
    .replaceAll('=', ' ')
    .split(/\s+/)
    .filter((group) => group !== '');
  const start = groups.indexOf('TTAA');
  if (start < 0) return { ok: false, reason: 'the part TTAA with the standard levels is missing: TTBB alone has no heights' };
  const [, day, hour] = /^(\d\d)(\d\d)/.exec(groups[start + 1] ?? '') ?? [];
  const station = groups[start + 2] ?? '';
  if (day === undefined || hour === undefined || !/^\d{5}$/.test(station))
    return { ok: false, reason: 'after TTAA come the day and hour, and five figures of the station' };
  const knots = Number(day) > 50;
  const dayOfMonth = Number(day) - (knots ? 50 : 0);
  if (dayOfMonth < 1 || dayOfMonth > 31 || Number(hour) > 24) return { ok: false, reason: `\u201c${day}${hour}\u201d is no day and hour` };
  const points = standardLevels(groups, start + 3);
  if (points.length < 2) return { ok: false, reason: 'fewer than two standard levels can be read' };
  const significant = significantLevels(groups, points);
  const factor = knots ? 1 : 3600 / METRES_PER_NAUTICAL_MILE;
  const winds: JobWind[] = [];
  for (const { metres, celsius, wind, hPa } of [...points, ...significant].toSorted((one, other) => (one.metres ?? 0) - (other.metres ?? 0))) {
    if (metres === null || wind === null) continue;
    const row = windRow(metres / METRES_PER_FOOT, wind.fromDegrees, wind.speed * factor, celsius);
    const fault = windFault(row);
    if (fault !== null) {
      left.push({ lineNumber: 1, text: `${hPa} hPa`, reason: `${fault} is none` });
      continue;
    }
    // The same height from both parts counts once, the standard level first.
    if (!winds.some(({ altitudeFeet }) => Math.abs(altitudeFeet - row.altitudeFeet) < 50)) winds.push(row);
  }
  if (winds.length === 0) return { ok: false, reason: 'no level has a wind' };
  return {
    ok: true,
    reading: {
      kind: 'sounding',
      hours: [
        {
          place: station,
          validMilliseconds: dayMilliseconds(dayOfMonth, Number(hour)),
          issuedMilliseconds: null,
          winds: winds.slice(0, 60),
          conditions: NO_CONDITIONS,
        },
      ],
      left,
      notes: [`Measured by a balloon, ${knots ? 'knots' : 'metres a second'}: what was, not what will be.`],
    },
  };
}

function standardLevels(groups: readonly string[], from: number): Point[] {
  const points: Point[] = [];
  // The surface comes first and has no height of its own: 99PPP TTTDD ddfff.
  let at = groups[from]?.startsWith('99') === true ? from + 3 : from;
  for (; at + 2 < groups.length; at += 3) {
    const [, figures, height] = /^(\d\d)(\d{3})$/.exec(groups[at] ?? '') ?? [];
    const level = figures === undefined ? undefined : LEVELS[figures];
    if (level === undefined || height === undefined || (points.at(-1)?.hPa ?? Infinity) <= level.hPa) break;
    points.push({ hPa: level.hPa, metres: level.metres(Number(height)), celsius: temperatureOf(groups[at + 1]), wind: windOf(groups[at + 2]) });
  }
  return points;
}

/** The winds of TTBB after 21212, at heights between the standard levels. */
function significantLevels(groups: readonly string[], standard: readonly Point[]): Point[] {
  const start = groups.indexOf('TTBB');
  const begin = start < 0 ? -1 : groups.indexOf('21212', start);
  if (begin < 0) return [];
  const points: Point[] = [];
  for (let at = begin + 1; at + 1 < groups.length; at += 2) {
    const [, pair, figures] = /^(\d)\1(\d{3})$/.exec(groups[at] ?? '') ?? [];
    if (pair === undefined || figures === undefined) break;
    // 00 is the surface; the others are numbered 11 to 99. Pressures from 1000 hPa on lose their thousand.
    const hPa = Number(figures) < 100 ? 1000 + Number(figures) : Number(figures);
    points.push({ hPa, metres: heightAt(hPa, standard), celsius: null, wind: windOf(groups[at + 1]) });
  }
  return points;
}

function heightAt(hPa: number, standard: readonly Point[]): number | null {
  for (const [index, lower] of standard.entries()) {
    const upper = standard[index + 1];
    if (upper === undefined || lower.metres === null || upper.metres === null || hPa > lower.hPa || hPa < upper.hPa) continue;
    const share = Math.log(lower.hPa / hPa) / Math.log(lower.hPa / upper.hPa);
    return lower.metres + share * (upper.metres - lower.metres);
  }
  return null;
}
