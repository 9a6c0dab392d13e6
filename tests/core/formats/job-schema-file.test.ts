import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/formats/demo-job.ts';
import { JOB_LENGTHS, JOB_LIMITS } from '../../../src/core/formats/job-limits.ts';
import { parseJob } from '../../../src/core/formats/parse-job.ts';
import { millisecondsFromRfc3339 } from '../../../src/core/formats/utc.ts';
import { anyJob } from './any-job.ts';
import { withValueAt } from './value-at.ts';

const schema = JSON.parse(readFileSync(fileURLToPath(new URL('../../../public/quillwind-job.schema.json', import.meta.url)), 'utf8')) as object;
const validate = new Ajv2020({ allErrors: false, allowUnionTypes: true, formats: { 'date-time': (text: string) => millisecondsFromRfc3339(text) !== null } }).compile(schema);

/** Both judge, and must agree. */
function isJob(value: unknown): boolean {
  const bySchema = validate(value);
  const byParser = parseJob(JSON.stringify(value)).ok;
  if (bySchema !== byParser) {
    throw new Error(`schema ${bySchema}, parser ${byParser}: ${JSON.stringify(validate.errors)} ${JSON.stringify(parseJob(JSON.stringify(value)))}`);
  }
  return bySchema;
}

/** Every place in a value, as `ships.0.name`. */
function placesIn(value: unknown, path = ''): string[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inner = Object.entries(value).flatMap(([key, child]) => placesIn(child, path === '' ? key : `${path}.${key}`));
  return path === '' ? inner : [path, ...inner];
}

const PLACES = placesIn(DEMO_JOB);

/** Where in the demo job each limited field stands. */
const LIMITED: readonly (readonly [path: string, least: number, greatest: number])[] = Object.entries(JOB_LIMITS).flatMap(([key, value]) => {
  const at = { wind: 'winds.1', ship: 'ships.0', frequency: 'frequencies.0' }[key] ?? key;
  if (Array.isArray(value)) return [[at, value[0], value[1]] as const];
  return Object.entries(value as Record<string, readonly [number, number]>).map(([field, [least, greatest]]) => [`${at}.${field}`, least, greatest] as const);
});

describe('the published JSON Schema', () => {
  it('takes every job that the parser writes', () => {
    fc.assert(fc.property(anyJob(), (job) => isJob(job)));
  });

  it('has every field of the demo job and requires it', () => {
    expect(PLACES.length).toBeGreaterThan(60);
    const removable = PLACES.filter((place) => !/\.\d+$/.test(place));
    for (const place of removable) expect({ place, isJob: isJob(withValueAt(DEMO_JOB, place, undefined)) }).toEqual({ place, isJob: false });
  });

  it.each(LIMITED)('agrees with the parser on the range of %s, %d to %d', (path, least, greatest) => {
    // The bank that limits the others, and the layer above the site, are judged across fields.
    const roomy = ['ships.0.maximumBankDegrees', 'site.elevationFeet'].includes(path) ? DEMO_JOB : withValueAt(withValueAt(DEMO_JOB, 'ships.0.maximumBankDegrees', 80), 'site.elevationFeet', -1500);
    const base = path === 'ships.0.maximumBankDegrees' ? withValueAt(withValueAt(roomy, 'ships.0.writingBankDegrees', 5), 'ships.0.turningBankDegrees', 5) : path === 'site.elevationFeet' ? withValueAt(roomy, 'layer.altitudeFeet', 45_000) : roomy;
    expect(isJob(withValueAt(base, path, least))).toBe(true);
    expect(isJob(withValueAt(base, path, greatest))).toBe(true);
    expect(isJob(withValueAt(base, path, least - 1e-6))).toBe(false);
    expect(isJob(withValueAt(base, path, greatest + 1e-6))).toBe(false);
  });

  it('agrees with the parser on values of any kind in any place', () => {
    const values = fc.oneof(fc.constantFrom(null, true, '', 'x', 0, -1, 1e9, [], {}, [[]], ' ', '2027-06-19T13:30:00Z', '2027-02-30T13:30:00Z'), fc.jsonValue({ maxDepth: 2 }));
    // What a schema cannot compare across fields is left to the parser's own tests.
    const acrossFields = new Set(['layer.altitudeFeet', 'site.elevationFeet', 'ships.0.maximumBankDegrees', 'ships.0.writingBankDegrees', 'ships.0.turningBankDegrees', 'site', 'layer', 'ships', 'ships.0']);
    fc.assert(
      fc.property(fc.constantFrom(...PLACES.filter((place) => !acrossFields.has(place))), values, (place, value) => {
        isJob(withValueAt(DEMO_JOB, place, value));
      }),
      { numRuns: 3000 },
    );
  });

  it.each([
    ['winds', JOB_LENGTHS.winds, DEMO_JOB.winds[0]],
    ['ships', JOB_LENGTHS.ships, DEMO_JOB.ships[0]],
    ['frequencies', JOB_LENGTHS.frequencies, DEMO_JOB.frequencies[0]],
  ])('agrees with the parser on how many %s there may be', (path, most, item) => {
    expect(isJob(withValueAt(DEMO_JOB, path, Array.from({ length: most }, () => item)))).toBe(true);
    expect(isJob(withValueAt(DEMO_JOB, path, Array.from({ length: most + 1 }, () => item)))).toBe(false);
  });
});
