import type { Job } from '../../core/job/job.ts';

const SPOKEN: Readonly<Record<string, string>> = {
  text: 'words',
  facingDegreesTrue: 'facing, \u00b0 true',
  'site.crowdFacingDegreesTrue': 'crowd faces of itself, \u00b0 true',
  viewElevationDegrees: 'elevation in the eye, \u00b0',
  readTime: 'read time',
  'layer.altitudeFeet': 'layer, ft',
  'layer.temperatureCelsius': 'temperature, \u00b0C',
  'letters.heightFeet': 'letter height, ft',
  'letters.spacingHeights': 'gap, share of height',
  'letters.depthStretch': 'stretch in depth',
  'options.letterOrder': 'letters',
  'options.progress': 'progress',
  'options.corners': 'corners',
  'options.runInSeconds': 'run-in, s',
  'options.runOutSeconds': 'run-out, s',
  'options.separationFeet': 'ships apart, ft',
  'options.heightStepFeet': 'each ship higher by, ft',
  'options.longestUnfinishedSeconds': 'letter half-written, s',
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

function spoken(path: string): string {
  return (
    SPOKEN[path] ??
    path
      .replace(/^ships\[(\d)\]\./, (_, index: string) => `ship ${Number(index) + 1}, `)
      .replace(/([a-z])([A-Z])/g, (_, before: string, letter: string) => `${before} ${letter.toLowerCase()}`)
  );
}

function shown(value: unknown): string {
  if (typeof value === 'number') return value.toLocaleString('en-US', { maximumFractionDigits: 4 });
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'string' ? value : 'not given';
}
