import type { JobWind } from '../job/job.ts';
import { feetPer, knotsPer } from './wind-units.ts';
import { type LineLeft, NO_CONDITIONS, windFault, type WindReadingResult, windRow } from './wind-reading.ts';

/** Height with its unit; direction and speed; temperature with its sign: `3000 250/12 +8`, `FL100 270/25kt -3C`, `1500 m 180 / 20 km/h`. */
const HEIGHT = String.raw`^(?:(FL)\s*)?(\d{1,3}(?:[ ,.\u2019']\d{3})+|\d{1,5})\s*(ft|feet|m|km|')?\s*[:;,|]?\s+(?:from\s+)?`;
const ROW = new RegExp(
  String.raw`${HEIGHT}(VRB|\d{1,3})\s*\u00b0?\s*(?:T|true)?\s*(?:[/@,;|-]|at|\s)\s*(\d{1,3}(?:[.,]\d{1,2})?)\s*(kts?|kn|knots|km\/h|kmh|m\/s|mph)?(?:(?:\s*[/,;|]\s*|\s+)([+-]|M|PS|MS)?\s*(\d{1,2}(?:[.,]\d)?)\s*\u00b0?\s*C?)?$`,
  'i',
);
const LONGEST_ROW = 120;
const LIGHT_ROW = new RegExp(String.raw`${HEIGHT}(light|calm)(?:\s+and\s+variable)?$`, 'i');

/**
 * Rows as people type and send them, one height a line, in that order. A height without a unit is in feet, a speed
 * without one in knots; both are said in the notes.
 */
export function readPlainRows(lines: readonly string[]): WindReadingResult {
  const winds: JobWind[] = [];
  const left: LineLeft[] = [];
  let [assumedFeet, assumedKnots] = [false, false];
  for (const [index, written] of lines.entries()) {
    // A row is short, and its spaces count as one: no text makes the form above search for long.
    const line = written
      .slice(0, LONGEST_ROW)
      .replace(/[\u2212\u2013]/g, '-')
      .trim()
      .replace(/\s+/g, ' ');
    if (line === '') continue;
    const match = ROW.exec(line) ?? LIGHT_ROW.exec(line);
    const leave = (reason: string): void => void left.push({ lineNumber: index + 1, text: written.trim().slice(0, 80), reason });
    if (match === null) {
      leave('not a row like 3000 250/12 +8');
      continue;
    }
    const [, level, height = '', heightUnit = '', direction = '', speed, speedUnit = '', sign = '', degrees] = match;
    const light = /^(VRB|light|calm)$/i.test(direction);
    assumedFeet ||= level === undefined && heightUnit === '';
    assumedKnots ||= speedUnit === '' && !light;
    if (level === undefined && heightUnit === '' && Number(height) < 100) {
      leave(`a height of ${height} says no unit: feet, thousands of feet or a flight level?`);
      continue;
    }
    const feet =
      Number(height.replace(/[ ,.\u2019']/g, '')) * (level !== undefined ? 100 : (feetPer(heightUnit === "'" || heightUnit === '' ? 'ft' : heightUnit) ?? 1));
    const knots = Number((speed ?? '0').replace(',', '.')) * (knotsPer(speedUnit === '' ? 'kt' : speedUnit) ?? 1);
    if (/^VRB$/i.test(direction) && knots >= 5) {
      leave('a variable wind of 5 kt and more has no direction to plan with');
      continue;
    }
    const negative = sign === '-' || /^(M|MS)$/i.test(sign);
    const celsius = degrees === undefined ? null : (negative ? -1 : 1) * Number(degrees.replace(',', '.'));
    const row = windRow(feet, light ? null : Number(direction), knots, celsius);
    const fault = windFault({ ...row, fromDegreesTrue: light ? null : Number(direction) });
    if (fault === null) winds.push(row);
    else leave(`${fault} is none`);
  }
  if (winds.length === 0) return { ok: false, reason: left[0] === undefined ? 'there is no row' : `line ${left[0].lineNumber}: ${left[0].reason}` };
  const notes = [...(assumedFeet ? ['Heights without a unit are taken as feet.'] : []), ...(assumedKnots ? ['Speeds without a unit are taken as knots.'] : [])];
  return {
    ok: true,
    reading: { kind: 'plain rows', hours: [{ place: '', validMilliseconds: null, issuedMilliseconds: null, winds, conditions: NO_CONDITIONS }], left, notes },
  };
}
