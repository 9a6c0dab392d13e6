import type { Job } from '../../core/job/job.ts';
import { JOB_FIELDS, type JobField, type JobFieldPath } from './job-fields.ts';

/** What is no number of a form. */
const SPOKEN: Readonly<Record<string, string>> = {
  text: 'words',
  readTime: 'read time',
  'layer.temperatureCelsius': 'temperature, \u00b0C',
  'options.letterOrder': 'letters',
  'options.progress': 'progress',
  'options.hand': 'hand',
  'options.sunOffNose': 'low sun off the nose',
};

/** What was changed from one job to another, a line each: `letter height, ft: 3,937 to 3,000`. */
export function jobDifferences(a: Job, b: Job): string[] {
  const lines: string[] = [];
  walk('', a, b, lines);
  return lines;
}

function walk(path: string, a: unknown, b: unknown, lines: string[]): void {
  if (Object.is(a, b)) return;
  if (path === 'winds' && JSON.stringify(a) !== JSON.stringify(b)) lines.push('winds');
  else if (path === 'windsText' || path === 'namedPoints') return;
  else if (path === 'conditions') {
    if (JSON.stringify(a) !== JSON.stringify(b)) lines.push('visibility and clouds');
  } else if (Array.isArray(a) && Array.isArray(b)) {
    if (a.length !== b.length) lines.push(`${spoken(path)}: ${a.length} to ${b.length}`);
    for (let index = 0; index < Math.min(a.length, b.length); index++) walk(`${path}[${index}]`, a[index], b[index], lines);
  } else if (isGroup(a) && isGroup(b)) {
    for (const key of Object.keys(a)) walk(path === '' ? key : `${path}.${key}`, a[key], b[key], lines);
  } else lines.push(`${spoken(path)}: ${shown(a)} to ${shown(b)}`);
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What a field is called, by its path: `ships[0].fuelGallons`. */
export function spoken(path: string): string {
  const [, ship, field] = /^(?:ships\[(\d)\]\.)?(.*)$/.exec(path) ?? [];
  const asked = ship === undefined ? path : `ships.${field ?? ''}`;
  const words = SPOKEN[path] ?? (asked in JOB_FIELDS ? askedAs(JOB_FIELDS[asked as JobFieldPath]) : asPlainWords(field ?? path));
  return ship === undefined ? words : `ship ${Number(ship) + 1}, ${words}`;
}

/** As in `letter height, ft`. */
function askedAs({ label, unit }: JobField): string {
  const words = label.charAt(0).toLowerCase() + label.slice(1);
  return unit === '' ? words : `${words}, ${unit}`;
}

function asPlainWords(path: string): string {
  return path.replace(/([a-z])([A-Z])/g, (_, before: string, letter: string) => `${before} ${letter.toLowerCase()}`);
}

function shown(value: unknown): string {
  if (typeof value === 'number') return value.toLocaleString('en-US', { maximumFractionDigits: 4 });
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'string' ? value : 'not given';
}
