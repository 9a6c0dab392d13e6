import type { JobWind } from '../job/job.ts';
import { millisecondsFromRfc3339 } from '../text/utc.ts';
import { feetPer, knotsPer } from './wind-units.ts';
import { NO_CONDITIONS, type ReadHour, windFault, type WindReadingResult, windRow } from './wind-reading.ts';

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields => typeof value === 'object' && value !== null && !Array.isArray(value);
const LONGEST_HOURS = 400;

/**
 * Levels of a weather model as JSON, each with its pressure and geopotential height: a list of hours with `levels`, or
 * columns by hour named by quantity and pressure (`wind_speed_850hPa`) with their units beside them. Heights above the
 * geoid serve as heights above mean sea level: they differ by under 0.3 % below 20 km.
 */
export function readModelLevels(value: unknown): WindReadingResult {
  const hours = isFields(value) && isFields(value['hourly']) ? columnHours(value, value['hourly']) : listedHours(value);
  if (typeof hours === 'string') return { ok: false, reason: hours };
  const filled = hours.filter(({ winds }) => winds.length > 0);
  return filled.length === 0
    ? { ok: false, reason: 'no hour has a level with height, direction and speed' }
    : { ok: true, reading: { kind: 'model levels', hours: filled, left: [], notes: ['From a weather model: no one has measured it.'] } };
}

function columnHours(file: Fields, hourly: Fields): ReadHour[] | string {
  const times = hourly['time'];
  if (!Array.isArray(times)) return 'the hours have no list of times';
  if (times.length > LONGEST_HOURS) return `more than ${LONGEST_HOURS} hours`;
  const units = isFields(file['hourly_units']) ? file['hourly_units'] : {};
  const levels = [...new Set(Object.keys(hourly).flatMap((key) => /_(\d{2,4})hPa$/i.exec(key)?.[1] ?? []))];
  if (levels.length === 0) return 'no column is named by a pressure, such as wind_speed_850hPa';
  const column = (quantity: string, hPa: string): { readonly values: readonly unknown[]; readonly unit: string } | null => {
    const key = `${quantity}_${hPa}hPa`;
    const values = hourly[key];
    const unit = units[key];
    return Array.isArray(values) ? { values, unit: typeof unit === 'string' ? unit : '' } : null;
  };
  const hours: ReadHour[] = [];
  for (const [index, time] of (times as readonly unknown[]).entries()) {
    const winds: JobWind[] = [];
    for (const hPa of levels) {
      const speed = column('wind_speed', hPa) ?? column('windspeed', hPa);
      const direction = column('wind_direction', hPa) ?? column('winddirection', hPa);
      const height = column('geopotential_height', hPa) ?? column('height', hPa);
      const temperature = column('temperature', hPa);
      if (speed === null || direction === null || height === null) continue;
      const factor = knotsPer(speed.unit);
      const feet = feetPer(height.unit === '' ? 'm' : height.unit);
      if (factor === null) return `the file does not say in which unit speeds are (${hPa} hPa: \u201c${speed.unit}\u201d)`;
      if (feet === null) return `\u201c${height.unit}\u201d is no unit of height that is known`;
      const [knots, degrees, metres, celsius] = [speed.values[index], direction.values[index], height.values[index], temperature?.values[index] ?? null];
      pushWind(winds, metres, feet, degrees, knots, factor, celsius);
    }
    hours.push({ place: '', validMilliseconds: timeOf(time), issuedMilliseconds: null, winds: winds.toSorted(byHeight), conditions: NO_CONDITIONS });
  }
  return hours;
}

function listedHours(value: unknown): ReadHour[] | string {
  const list: readonly unknown[] = Array.isArray(value)
    ? value
    : isFields(value) && Array.isArray(value['hours'])
      ? (value['hours'] as readonly unknown[])
      : [value];
  if (list.length > LONGEST_HOURS) return `more than ${LONGEST_HOURS} hours`;
  const hours: ReadHour[] = [];
  for (const hour of list) {
    if (!isFields(hour) || !Array.isArray(hour['levels'])) return 'it holds no list of levels';
    const winds: JobWind[] = [];
    for (const level of hour['levels'] as readonly unknown[]) {
      if (!isFields(level)) continue;
      const speed = named(level, [/^wind_?speed(_?(knots|kt|kn|ms|mps|kmh))?$/i, /^speed(_?(knots|kt|kn|ms|mps|kmh))?$/i]);
      const height = named(level, [/^geopotential_?height(_?(m|metres|meters|feet|ft))?$/i, /^height(_?(m|metres|meters|feet|ft))?$/i]);
      const direction = named(level, [/^wind_?direction(_?degrees)?$/i, /^direction(_?degrees)?$/i]);
      const temperature = named(level, [/^temperature(_?(c|celsius|k|kelvin))?$/i]);
      if (speed === null || height === null || direction === null) continue;
      const unit = speed.unit !== '' ? speed.unit : textOf(hour['speedUnit'] ?? hour['wind_speed_unit']);
      const factor = knotsPer(unit);
      if (factor === null) return 'the file does not say in which unit speeds are: name it in the field (windSpeedKnots) or in speedUnit';
      const celsius = typeof temperature?.value === 'number' && /^k/i.test(temperature.unit) ? temperature.value - 273.15 : (temperature?.value ?? null);
      pushWind(winds, height.value, feetPer(height.unit === '' ? 'm' : height.unit) ?? 1, direction.value, speed.value, factor, celsius);
    }
    hours.push({
      place: textOf(hour['model'] ?? hour['place'] ?? hour['name']),
      validMilliseconds: timeOf(hour['time'] ?? hour['validTime'] ?? hour['valid']),
      issuedMilliseconds: timeOf(hour['issued'] ?? hour['run'] ?? hour['issuedTime']),
      winds: winds.toSorted(byHeight),
      conditions: NO_CONDITIONS,
    });
  }
  return hours;
}

function pushWind(winds: JobWind[], metres: unknown, feet: number, degrees: unknown, speed: unknown, factor: number, celsius: unknown): void {
  if (typeof metres !== 'number' || typeof degrees !== 'number' || typeof speed !== 'number' || winds.length >= 60) return;
  const row = windRow(metres * feet, degrees, speed * factor, typeof celsius === 'number' ? celsius : null);
  if (degrees >= 0 && degrees <= 360 && windFault(row) === null && !winds.some(({ altitudeFeet }) => altitudeFeet === row.altitudeFeet)) winds.push(row);
}

function named(fields: Fields, forms: readonly RegExp[]): { readonly value: unknown; readonly unit: string } | null {
  for (const form of forms) {
    const key = Object.keys(fields).find((each) => form.test(each));
    if (key !== undefined) return { value: fields[key], unit: form.exec(key)?.[1]?.replace('_', '') ?? '' };
  }
  return null;
}

const byHeight = (one: JobWind, other: JobWind): number => one.altitudeFeet - other.altitudeFeet;
const textOf = (value: unknown): string => (typeof value === 'string' ? value.slice(0, 60) : '');

function timeOf(value: unknown): number | null {
  if (typeof value !== 'string') return null;
  const [, day, hour, zone = 'Z'] = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)(?::\d\d(?:\.\d+)?)?(Z|[+-]\d\d:\d\d)?$/.exec(value) ?? [];
  return day === undefined || hour === undefined ? null : millisecondsFromRfc3339(`${day}T${hour}:00${zone}`);
}
