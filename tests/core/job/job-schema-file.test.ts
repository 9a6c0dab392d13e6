import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { fc } from '../../property.ts';
import type * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { JOB_LENGTHS, JOB_SCHEMA } from '../../../src/core/job/job-schema.ts';
import { NOTHING_BOOKED, NOTHING_SAID_OF_SHIP } from '../../../src/core/job/nothing-said.ts';
import { parseJob } from '../../../src/core/job/parse-job.ts';
import { fieldMetadata, schemaAt, schemaShape } from '../../../src/core/text/walk-schema.ts';
import { publishedSchemas } from '../../../.ci/published-schemas.ts';
import { millisecondsFromRfc3339 } from '../../../src/core/text/utc.ts';
import { anyJob } from './any-job.ts';
import { withValueAt } from '../text/value-at.ts';

const schema = JSON.parse(readFileSync(fileURLToPath(new URL('../../../public/quillwind-job.schema.json', import.meta.url)), 'utf8')) as object;
const validate = new Ajv2020({
  allErrors: false,
  allowUnionTypes: true,
  formats: { 'date-time': (text: string) => millisecondsFromRfc3339(text) !== null },
}).compile(schema);

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

/** The demo job with every list filled. */
const CONDITIONS: Job['conditions'] = { altimeterHectopascals: 1016.4, visibilityStatuteMiles: 10, clouds: [{ baseFeet: 4000, topFeet: 6000, oktas: 3 }] };
const SOME_TIME = '2027-06-19T06:00:00Z';
const FULL_JOB: Job = {
  ...DEMO_JOB,
  conditions: CONDITIONS,
  site: { ...DEMO_JOB.site, variationByHand: { eastDegrees: -13, ofTime: '2027-01-01T00:00:00Z', always: true } },
  ships: DEMO_JOB.ships.map((ship) => ({
    ...ship,
    keptId: 'k1',
    oilPoundsPerGallon: 7,
    smokeTankGallons: 60,
    climbFeetPerMinute: 700,
    bingoFuelGallons: 12,
    balance: {
      emptyPounds: 1200,
      emptyArmInches: 10,
      pilotPounds: 200,
      pilotArmInches: 20,
      fuelPoundsPerGallon: 6,
      fuelArmInches: 30,
      oilArmInches: 40,
      forwardLimitInches: 8,
      aftLimitInches: 25,
      greatestPounds: 2200,
    },
  })),
  booking: {
    client: 'Regatta club',
    contact: 'Harbour office, 555 0100',
    feeAmount: 900,
    feeCurrency: 'USD',
    owed: ['words'],
    deadlineTime: SOME_TIME,
    callTime: SOME_TIME,
    reportTime: SOME_TIME,
    spareTimes: [SOME_TIME],
    permissions: [{ name: 'Waiver', state: 'asked', number: '1', saidBy: 'the office' }],
    sentTime: SOME_TIME,
    paidTime: SOME_TIME,
    outcomes: [{ atTime: SOME_TIME, kind: 'dud', cause: 'cloud', calledBy: 'lead', costAmount: 10 }],
  },
  viewingPlaces: [{ name: 'Hill', latitudeDegrees: 43.88, longitudeDegrees: -74.42, elevationFeet: 1900, weight: 2 }],
  crew: [{ name: 'One', role: 'observer', telephone: '555 0101' }],
  forecasts: [{ validTime: SOME_TIME, issuedTime: SOME_TIME, source: 'typed', winds: DEMO_JOB.winds.slice(0, 1), conditions: { ...CONDITIONS, clouds: null } }],
};
/** What files written by older versions do not have, by the code's own schema. */
const LATER = laterIn(JOB_SCHEMA, '');

function laterIn(looked: v.GenericSchema, path: string): string[] {
  const shape = schemaShape(looked);
  switch (shape.kind) {
    case 'wrapped':
      return [...laterIn(shape.inner, path), ...(shape.mayBeMissing ? [path] : [])];
    case 'list':
      return laterIn(shape.item, `${path}.0`);
    case 'group':
      return Object.entries(shape.entries).flatMap(([key, entry]) => laterIn(entry, path === '' ? key : `${path}.${key}`));
    default:
      return [];
  }
}

const PLACES = placesIn(FULL_JOB);

/** Where in the demo job each limited number stands, by the code's own schema. */
const LIMITED: readonly (readonly [path: string, least: number, greatest: number])[] = PLACES.flatMap((place) => {
  const path = place.replace(/\.\d+/g, '');
  const json = path === '' || /^\d+$/.test(place) ? undefined : fieldMetadata(schemaAt(JOB_SCHEMA, path))?.json;
  const first = place
    .split('.')
    .filter((key) => /^\d+$/.test(key))
    .every((key) => key === '0' || (place.startsWith('winds.1') && key === '1'));
  return first && !place.startsWith('winds.0') && typeof json?.['minimum'] === 'number' && typeof json['maximum'] === 'number'
    ? [[place, json['minimum'], json['maximum']] as const]
    : [];
});

describe('the published JSON Schema', () => {
  it('stands in public/ as the code has it (node --import tsx .ci/write-schemas.ts)', () => {
    for (const [file, text] of publishedSchemas()) {
      expect(readFileSync(fileURLToPath(new URL(`../../../public/${file}`, import.meta.url)), 'utf8'), file).toBe(text);
    }
  });

  it('knows what older files lack', () => {
    expect(LATER).toEqual(
      expect.arrayContaining(['site.crowdFacingDegreesTrue', 'ships.0.otherFlyingMinutes', 'conditions', 'namedPoints', 'options.heightStepFeet']),
    );
  });

  it('knows the ranges of all numbers', () => {
    expect(LIMITED.length).toBeGreaterThan(35);
  });

  it('takes every job that the parser writes', () => {
    fc.assert(fc.property(anyJob(), (job) => isJob(job)));
  });

  it('has every field of the demo job and requires it, but for those that older files lack', () => {
    expect(PLACES.length).toBeGreaterThan(60);
    const removable = PLACES.filter((place) => !/\.\d+$/.test(place));
    for (const place of removable) expect({ place, isJob: isJob(withValueAt(FULL_JOB, place, undefined)) }).toEqual({ place, isJob: LATER.includes(place) });
  });

  it('opens a file of an older version, with nothing looked up and nothing said', () => {
    const old = LATER.reduce<unknown>((job, place) => withValueAt(job, place, undefined), FULL_JOB);
    expect(isJob(old)).toBe(true);
    const read = parseJob(JSON.stringify(old));
    expect(read.ok && { ...read.value, ships: read.value.ships.map(({ otherFlyingMinutes }) => otherFlyingMinutes) }).toEqual({
      ...DEMO_JOB,
      demo: false,
      ships: [null],
      conditions: { altimeterHectopascals: null, visibilityStatuteMiles: null, clouds: null },
      namedPoints: [],
      ...NOTHING_BOOKED,
    });
    expect(read.ok && read.value.ships[0]).toMatchObject({ ...NOTHING_SAID_OF_SHIP });
    // Two readings share nothing that one of them could change.
    const again = parseJob(JSON.stringify(old));
    expect(again.ok && read.ok && again.value.namedPoints !== read.value.namedPoints && again.value.conditions !== read.value.conditions).toBe(true);
  });

  it('knows that a cloud ends above where it begins', () => {
    const upside = parseJob(JSON.stringify(withValueAt(FULL_JOB, 'conditions.clouds.0.topFeet', 3999)));
    expect(upside.ok ? '' : upside.reason).toContain('conditions.clouds[0].topFeet must not lie below the base');
  });

  it.each(LIMITED)('agrees with the parser on the range of %s, %d to %d', (path, least, greatest) => {
    // The bank that limits the others, and the layer above the site, are judged across fields.
    const roomy = ['ships.0.maximumBankDegrees', 'site.elevationFeet'].includes(path)
      ? FULL_JOB
      : withValueAt(withValueAt(FULL_JOB, 'ships.0.maximumBankDegrees', 80), 'site.elevationFeet', -1500);
    const base =
      path === 'ships.0.maximumBankDegrees'
        ? withValueAt(withValueAt(roomy, 'ships.0.writingBankDegrees', 5), 'ships.0.turningBankDegrees', 5)
        : path === 'site.elevationFeet'
          ? withValueAt(roomy, 'layer.altitudeFeet', 45_000)
          : roomy;
    const free =
      path === 'conditions.clouds.0.baseFeet'
        ? withValueAt(base, 'conditions.clouds.0.topFeet', null)
        : path === 'conditions.clouds.0.topFeet'
          ? withValueAt(base, 'conditions.clouds.0.baseFeet', -1500)
          : base;
    expect(isJob(withValueAt(free, path, least))).toBe(true);
    expect(isJob(withValueAt(free, path, greatest))).toBe(true);
    expect(isJob(withValueAt(free, path, least - 1e-6))).toBe(false);
    expect(isJob(withValueAt(free, path, greatest + 1e-6))).toBe(false);
  });

  it('agrees with the parser on values of any kind in any place', () => {
    const values = fc.oneof(
      fc.constantFrom(null, true, '', 'x', 0, -1, 1e9, [], {}, [[]], ' ', '2027-06-19T13:30:00Z', '2027-02-30T13:30:00Z'),
      fc.jsonValue({ maxDepth: 2 }),
    );
    // What a schema cannot compare across fields is left to the parser's own tests.
    const acrossFields = new Set([
      'layer.altitudeFeet',
      'site.elevationFeet',
      'ships.0.maximumBankDegrees',
      'ships.0.writingBankDegrees',
      'ships.0.turningBankDegrees',
      'site',
      'layer',
      'ships',
      'ships.0',
      'conditions.clouds.0.baseFeet',
      'conditions.clouds.0.topFeet',
      'conditions.clouds.0',
      'conditions.clouds',
      'conditions',
    ]);
    fc.assert(
      fc.property(fc.constantFrom(...PLACES.filter((place) => !acrossFields.has(place))), values, (place, value) => {
        isJob(withValueAt(FULL_JOB, place, value));
      }),
      { numRuns: 3000 },
    );
  });

  it.each([
    ['winds', JOB_LENGTHS.winds, DEMO_JOB.winds[0]],
    ['ships', JOB_LENGTHS.ships, DEMO_JOB.ships[0]],
    ['frequencies', JOB_LENGTHS.frequencies, DEMO_JOB.frequencies[0]],
    ['namedPoints', JOB_LENGTHS.namedPoints, DEMO_JOB.namedPoints[0]],
    ['conditions.clouds', JOB_LENGTHS.clouds, { baseFeet: 4000, topFeet: null, oktas: 3 }],
  ])('agrees with the parser on how many %s there may be', (path, most, item) => {
    expect(
      isJob(
        withValueAt(
          DEMO_JOB,
          path,
          Array.from({ length: most }, () => item),
        ),
      ),
    ).toBe(true);
    expect(
      isJob(
        withValueAt(
          DEMO_JOB,
          path,
          Array.from({ length: most + 1 }, () => item),
        ),
      ),
    ).toBe(false);
  });
});
