import type { JobWind } from '../job/job.ts';
import { type LineLeft, NO_CONDITIONS, type ReadHour, windFault, type WindReadingResult, windRow } from './wind-reading.ts';

/** Thousands of feet, direction, speed, temperature: `24 310 65 -34`, `05 250 20 PS08`, `10 VRB 03 MS04`. */
const ROW = /^(\d{2})\s+(\d{3}|VRB)\s*[/ ]\s*(\d{2,3})(?:\s+(PS|MS|[+-])?\s*(\d{1,2}))?$/;
const POSITION = /^(\d{4}[NS])\s*(\d{4,5}[EW])\b/;

/**
 * Spot winds as charts outside the United States print them: for one or more positions, heights in thousands of feet, the
 * direction true, knots, temperature with its sign or with PS and MS (common practice, from memory).
 */
export function readSpotWinds(lines: readonly string[]): WindReadingResult {
  const hours: (ReadHour & { winds: JobWind[] })[] = [];
  const left: LineLeft[] = [];
  const open = (place: string): ReadHour & { winds: JobWind[] } => ({
    place,
    validMilliseconds: null,
    issuedMilliseconds: null,
    winds: [],
    conditions: NO_CONDITIONS,
  });
  let now: (ReadHour & { winds: JobWind[] }) | null = null;
  for (const [index, written] of lines.entries()) {
    const line = written
      .replace(/[\u2212\u2013]/g, '-')
      .trim()
      .toUpperCase();
    if (line === '') continue;
    const position = POSITION.exec(line);
    if (position !== null) {
      now = open(`${position[1] ?? ''} ${position[2] ?? ''}`);
      hours.push(now);
      continue;
    }
    const [, thousands, direction, speed, sign = '', degrees] = ROW.exec(line) ?? [];
    const leave = (reason: string): void => void left.push({ lineNumber: index + 1, text: written.trim().slice(0, 80), reason });
    if (thousands === undefined || direction === undefined || speed === undefined) {
      leave('not a row like 10 270 25 -04');
      continue;
    }
    const light = direction === 'VRB';
    const row = windRow(
      Number(thousands) * 1000,
      light ? null : Number(direction),
      Number(speed),
      degrees === undefined ? null : (sign === 'MS' || sign === '-' ? -1 : 1) * Number(degrees),
    );
    const fault =
      light && Number(speed) >= 5 ? 'a variable wind of 5 kt and more' : Number(direction) > 360 ? `a direction of ${direction} degrees` : windFault(row);
    if (fault !== null) {
      leave(`${fault} is none to plan with`);
      continue;
    }
    if (now === null) {
      now = open('');
      hours.push(now);
    }
    now.winds.push(row);
  }
  const filled = hours.filter(({ winds }) => winds.length > 0);
  return filled.length === 0
    ? { ok: false, reason: 'there is no row like 10 270 25 -04' }
    : { ok: true, reading: { kind: 'spot winds', hours: filled, left, notes: ['Heights are thousands of feet, directions true, speeds knots.'] } };
}
