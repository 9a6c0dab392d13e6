import type { JobWind } from '../job/job.ts';
import { millisecondsFromRfc3339 } from '../text/utc.ts';
import { feetPer, knotsPer } from './wind-units.ts';
import { type LineLeft, NO_CONDITIONS, type ReadHour, windFault, type WindReadingResult, windRow } from './wind-reading.ts';

type Column = 'time' | 'height' | 'direction' | 'speed' | 'temperature' | 'place';

/** What a column's head may begin with; the first that fits. */
const HEADS: readonly (readonly [Column, RegExp])[] = [
  ['time', /^(valid|time|date|hour|utc)/],
  ['direction', /^(wind\s*)?(dir|direction|from|wd|ddd|bearing)/],
  ['speed', /^(wind\s*)?(speed|spd|ws|ff|vel|knots|kt)|^wind\b/],
  ['temperature', /^(t$|t\s*[([]|temp|\u00b0c|oat)/],
  ['height', /^(alt|height|hgt|level|elev|ft$|feet|fl$|z\b|gph|geopotential)/],
  ['place', /^(station|place|site|model|name)/],
];

/** The head line's columns; null where it is none: height, direction and speed must be among them. */
function columnsOf(cells: readonly string[]): Map<Column, { readonly index: number; readonly unit: string }> | null {
  const found = new Map<Column, { readonly index: number; readonly unit: string }>();
  for (const [index, cell] of cells.entries()) {
    const head = cell.trim().toLowerCase().replaceAll('_', ' ');
    const column = HEADS.find(([name, form]) => !found.has(name) && form.test(head))?.[0];
    if (column === undefined) continue;
    const unit = /[([,]\s*([^)\]]+?)\s*[)\]]?$/.exec(head)?.[1] ?? /\b(ft|feet|m|km|fl|kts?|kn|knots|m\/s|km\/h|kmh|mph|c|f|k)$/.exec(head)?.[1] ?? '';
    found.set(column, { index, unit });
  }
  return found.has('height') && found.has('direction') && found.has('speed') ? found : null;
}

/** Cells of a line of CSV (RFC 4180), or of a line separated by semicolons, tabs or runs of spaces. */
function cellsOf(line: string, mark: string): string[] {
  if (mark === ' ') return line.trim().split(/\s{2,}|\s+(?=[-+\d])|\s+/);
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (let index = 0; index < line.length; index += 1) {
    const character = line[index] ?? '';
    if (quoted) {
      if (character === '"' && line[index + 1] === '"') {
        cell += '"';
        index += 1;
      } else if (character === '"') quoted = false;
      else cell += character;
    } else if (character === '"') quoted = true;
    else if (character === mark) {
      cells.push(cell);
      cell = '';
    } else cell += character;
  }
  return [...cells, cell];
}

/**
 * A table with a head line, its columns in any order: `Height (m);Direction;Speed (km/h);Temp`. Units stand in the head;
 * without one heights are feet and speeds knots, which is said. With a column of times the rows become several hours.
 */
export function readTable(lines: readonly string[]): WindReadingResult {
  const headIndex = lines.findIndex((line) => line.trim() !== '');
  const head = lines[headIndex] ?? '';
  const mark = ['\t', ';', ',', '|', ' '].find((each) => columnsOf(cellsOf(head, each)) !== null);
  const columns = mark === undefined ? null : columnsOf(cellsOf(head, mark));
  if (mark === undefined || columns === null) return { ok: false, reason: 'no head line with height, direction and speed' };
  const unitOf = (column: Column): string => columns.get(column)?.unit ?? '';
  const heightFactor = feetPer(unitOf('height') === '' ? 'ft' : unitOf('height'));
  const speedFactor = knotsPer(unitOf('speed') === '' ? 'kt' : unitOf('speed'));
  const temperatureUnit = unitOf('temperature').toLowerCase().replace('\u00b0', '');
  if (heightFactor === null) return { ok: false, reason: `\u201c${unitOf('height')}\u201d is no unit of height that is known` };
  if (speedFactor === null) return { ok: false, reason: `\u201c${unitOf('speed')}\u201d is no unit of speed that is known` };
  if (!['', 'c', 'celsius', 'f', 'k'].includes(temperatureUnit))
    return { ok: false, reason: `\u201c${unitOf('temperature')}\u201d is no unit of temperature that is known` };
  const celsius = (value: number): number => (temperatureUnit === 'f' ? ((value - 32) * 5) / 9 : temperatureUnit === 'k' ? value - 273.15 : value);
  const hours = new Map<string, ReadHour & { winds: JobWind[] }>();
  const left: LineLeft[] = [];
  for (const [index, line] of lines.entries()) {
    if (index <= headIndex || line.trim() === '') continue;
    const cells = cellsOf(line, mark);
    const cell = (column: Column): string => cells[columns.get(column)?.index ?? -1]?.trim() ?? '';
    const leave = (reason: string): void => void left.push({ lineNumber: index + 1, text: line.trim().slice(0, 80), reason });
    const [height, direction, speed] = [numberOf(cell('height'), mark), numberOf(cell('direction'), mark), numberOf(cell('speed'), mark)];
    if (height === null || direction === null || speed === null) {
      leave('a number is missing');
      continue;
    }
    const degrees = numberOf(cell('temperature'), mark);
    const row = windRow(height * heightFactor, direction, speed * speedFactor, degrees === null ? null : celsius(degrees));
    const fault = direction > 360 ? `a direction of ${direction} degrees` : windFault(row);
    if (fault !== null) {
      leave(`${fault} is none`);
      continue;
    }
    const written = cell('time');
    const validMilliseconds = written === '' ? null : timeOf(written);
    if (written !== '' && validMilliseconds === null) {
      leave(`\u201c${written.slice(0, 30)}\u201d is not a time like 2027-06-19T15:00Z`);
      continue;
    }
    const place = cell('place');
    const key = `${place}/${validMilliseconds}`;
    const hour = hours.get(key) ?? { place, validMilliseconds, issuedMilliseconds: null, winds: [], conditions: NO_CONDITIONS };
    hour.winds.push(row);
    hours.set(key, hour);
  }
  if (hours.size === 0)
    return { ok: false, reason: left[0] === undefined ? 'there is no row below the head' : `line ${left[0].lineNumber}: ${left[0].reason}` };
  const notes = [
    ...(unitOf('height') === '' ? ['Heights without a unit are taken as feet.'] : []),
    ...(unitOf('speed') === '' ? ['Speeds without a unit are taken as knots.'] : []),
  ];
  return { ok: true, reading: { kind: 'table', hours: [...hours.values()], left, notes } };
}

/** A plain number; a comma begins decimals where commas do not part cells. */
function numberOf(text: string, mark: string): number | null {
  const plain = (mark === ',' ? text : text.replace(',', '.')).replace(/[\u2212\u2013]/g, '-').replace(/\u00b0$/, '');
  return /^[+-]?\d+(\.\d+)?$/.test(plain) ? Number(plain) : null;
}

/** RFC 3339, or the same without seconds; a time without a zone is UTC, as forecasts are. */
function timeOf(text: string): number | null {
  const [, day, hour, zone = 'Z'] = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d)(?::\d\d)?\s*(Z|UTC|[+-]\d\d:\d\d)?$/i.exec(text) ?? [];
  return day === undefined || hour === undefined ? null : millisecondsFromRfc3339(`${day}T${hour}:00${/^utc$/i.test(zone) ? 'Z' : zone.toUpperCase()}`);
}
