import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { type JobReading, parseJob } from '../../../src/core/job/parse-job.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { anyJob } from './any-job.ts';
import { withValueAt } from '../text/value-at.ts';
import { processorMilliseconds } from '../../processor-time.ts';

function reading(value: unknown): JobReading {
  return parseJob(JSON.stringify(value));
}

function reasonOf(value: JobReading): string {
  return value.ok ? '(taken)' : value.reason;
}

function jobOf(value: JobReading): Job {
  if (!value.ok) throw new Error(value.reason);
  return value.value;
}

describe('parseJob', () => {
  it('takes the demo job', () => {
    expect(reading(DEMO_JOB)).toEqual({ ok: true, value: DEMO_JOB });
  });

  it('is the inverse of writeJob', () => {
    fc.assert(
      fc.property(anyJob(), (job) => {
        expect(parseJob(writeJob(job))).toStrictEqual({ ok: true, value: job });
      }),
    );
  });

  it('takes what it wrote as the same bytes', () => {
    fc.assert(
      fc.property(anyJob(), (job) => {
        const text = writeJob(job);
        expect(writeJob(jobOf(parseJob(text)))).toBe(text);
      }),
    );
  });

  it('never throws, whatever JSON it is given, and takes none of it', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 5 }), (text) => {
        expect(parseJob(text).ok).toBe(false);
      }),
    );
  });

  it('never throws when any one field holds any value', () => {
    const paths = ['id', 'name', 'site', 'site.latitudeDegrees', 'winds', 'winds.0', 'ships', 'ships.0', 'ships.0.name', 'options', 'readTime', 'notes'];
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.jsonValue(), (path, value) => {
        const result = parseJob(JSON.stringify(withValueAt(DEMO_JOB, path, value)));
        if (!result.ok) expect(result.reason).toContain(path.split('.')[0] ?? '');
      }),
    );
  });

  it.each([
    [undefined, 'This is not a job file.'],
    [new Uint8Array(3), 'This is not a job file.'],
    ['', 'This file is empty.'],
    [' \n', 'This file is empty.'],
    ['[]', 'This is not a job file: it does not begin with "format": "quillwind-job".'],
    ['null', 'This is not a job file: it does not begin with "format": "quillwind-job".'],
    ['{"format":"gpx"}', 'This is not a job file: it does not begin with "format": "quillwind-job".'],
    ['{"format":"quillwind-job"}', 'This job file does not say which version it is ("version": 1).'],
    ['{"format":"quillwind-job","version":"1"}', 'This job file does not say which version it is ("version": 1).'],
    ['{"format":"quillwind-job","version":2}', 'This job file was written by a newer version of Quillwind. Update, then import it again.'],
    ['<gpx></gpx>', 'This file is not whole JSON. It may have been cut off or changed; ask for it again.'],
    ['{"format":"quillwind-job",\n"version":1,\n"name": }', 'This file is not whole JSON (line 3). It may have been cut off or changed; ask for it again.'],
  ])('refuses %j with a reason', (file, reason) => {
    const result = parseJob(file);
    // Engines differ in whether they name a place.
    expect(reasonOf(result).replace(/ \(line \d+\)/, '')).toBe(reason.replace(/ \(line \d+\)/, ''));
  });

  it('opens files written before height steps, the cap on half-written letters and the sun were known', () => {
    const options: Record<string, unknown> = { ...DEMO_JOB.options };
    for (const field of ['heightStepFeet', 'joinUpStepFeet', 'longestUnfinishedSeconds', 'sunOffNose']) delete options[field];
    const result = parseJob(JSON.stringify({ ...DEMO_JOB, options }));
    expect(result.ok ? result.value : result.reason).toEqual(DEMO_JOB);
  });

  it('names the line of a broken file', () => {
    expect(reasonOf(parseJob('{"format":"quillwind-job",\n"version":1\n"name": 3}'))).toContain('(line 3)');
  });

  it('refuses every cut-off file', () => {
    const text = writeJob(DEMO_JOB);
    for (let length = 0; length < text.length - 2; length += 7) expect(parseJob(text.slice(0, length)).ok).toBe(false);
  });

  it.each([
    ['name', 7, 'name must be text in quotes; it is 7.'],
    ['name', ' \u202E\u0000 ', 'name is empty; write at least one letter.'],
    ['text', undefined, 'text is missing.'],
    ['id', '../etc', 'id must be 1 to 32 letters, digits, - or _.'],
    ['id', 'x'.repeat(33), 'id must be 1 to 32 letters, digits, - or _.'],
    ['site', undefined, 'site is missing.'],
    ['site', 'pier', 'site must be a group of fields in braces; it is “pier”.'],
    ['site.latitudeDegrees', '43.9', 'site.latitudeDegrees must be a number from -85 to 85; it is “43.9”.'],
    ['site.latitudeDegrees', 438, 'site.latitudeDegrees must be a number from -85 to 85; it is 438.'],
    ['site.longitudeDegrees', null, 'site.longitudeDegrees must be a number from -180 to 180; it is null.'],
    ['readTime', '2027-06-19', 'readTime must be a date and time in UTC, such as 2027-06-19T13:30:00Z.'],
    ['readTime', '2027-02-30T10:00:00Z', 'readTime must be a date and time in UTC, such as 2027-06-19T13:30:00Z.'],
    ['readTime', '2027-06-19T13:30:00+02:00', 'readTime must be a date and time in UTC, such as 2027-06-19T13:30:00Z.'],
    ['layer.altitudeFeet', 1000, 'layer.altitudeFeet must be above the site.'],
    ['ships', [], 'ships must be a list of 1 to 9; it has 0.'],
    ['ships.0.trueAirspeedKnots', 1043, 'ships[0].trueAirspeedKnots must be a number from 30 to 400; it is 1043.'],
    ['ships.0.maximumBankDegrees', 40, 'ships[0].maximumBankDegrees must be at least the writing and the turning bank.'],
    ['options.letterOrder', 'backwards', 'options.letterOrder must be one of reading, free; it is “backwards”.'],
    ['winds', 'calm', 'winds must be a list of at most 60; it is “calm”.'],
  ])('says what is wrong with %s = %j', (path, value, words) => {
    expect(reasonOf(reading(withValueAt(DEMO_JOB, path, value)))).toBe(`This job cannot be taken as it is: ${words}`);
  });

  it('names the first three faults and counts the rest', () => {
    const broken = ['site.latitudeDegrees', 'site.longitudeDegrees', 'layer.altitudeFeet', 'letters.heightFeet', 'viewElevationDegrees'].reduce<unknown>(
      (job, path) => withValueAt(job, path, 1e9),
      DEMO_JOB,
    );
    const result = reading(broken);
    expect(result.ok ? [] : result.faults).toHaveLength(5);
    expect(reasonOf(result)).toMatch(/ And 2 more\.$/);
  });

  it('takes no infinite number', () => {
    const text = writeJob(DEMO_JOB).replace('"speedKnots": 6', '"speedKnots": 1e999');
    expect(reasonOf(parseJob(text))).toContain('winds[0].speedKnots must be a number from 0 to 250; it is Infinity');
  });

  it('refuses more than 1 MB at once, counted in bytes', () => {
    const big = writeJob({ ...DEMO_JOB, notes: 'é'.repeat(500_000) });
    expect(big.length).toBeLessThan(1_000_000);
    const startedAt = processorMilliseconds();
    expect(reasonOf(parseJob(big))).toContain('larger than 1 MB');
    expect(reasonOf(parseJob(' '.repeat(200_000_000)))).toContain('larger than 1 MB');
    expect(processorMilliseconds() - startedAt).toBeLessThan(2000);
  });

  it('refuses more than 32 levels, and braces inside text are not levels', () => {
    const nested = (levels: number): string => `{"format":"quillwind-job","version":1,"x":${'['.repeat(levels)}${']'.repeat(levels)}}`;
    expect(reasonOf(parseJob(nested(32)))).toContain('nested more than 32 levels');
    expect(reasonOf(parseJob(nested(31)))).not.toContain('nested');
    expect(reasonOf(parseJob('['.repeat(900_000)))).toContain('nested more than 32 levels');
    const noted = { ...DEMO_JOB, notes: '[{"\\'.repeat(100) };
    expect(jobOf(reading(noted)).notes).toBe(noted.notes);
  });

  it('takes a million-item list as quickly as a short one', () => {
    const startedAt = processorMilliseconds();
    const text = writeJob(DEMO_JOB).replace('"winds": [', `"winds": [${'1,'.repeat(400_000)}`);
    expect(reasonOf(parseJob(text))).toContain('winds must be a list of at most 60; it has 400004');
    expect(processorMilliseconds() - startedAt).toBeLessThan(2000);
  });

  it('cleans names: NFC, no control, bidi or invisible characters, 60 characters', () => {
    const hostile = {
      ...DEMO_JOB,
      name: `e\u0301 \u202Egnp.exe\u2069\u200B <img src=x onerror=alert(1)>\u0007${'x'.repeat(100)}`,
      site: { ...DEMO_JOB.site, name: 'A\n\tB\u2028C' },
      notes: 'one\r\ntwo\u202E\rthree\u0000',
    };
    const job = jobOf(reading(hostile));
    expect(job.name).toMatch(/^\u00E9 gnp\.exe <img src=x onerror=alert\(1\)>x+$/);
    expect([...job.name]).toHaveLength(60);
    expect(job.site.name).toBe('A BC');
    expect(job.notes).toBe('one\ntwo\nthree');
  });

  it('keeps the lines of the text, each cleaned as a name', () => {
    expect(jobOf(reading({ ...DEMO_JOB, text: ' GO \u202E\r\n\n  SAIL\tNOW ' })).text).toBe('GO\nSAIL NOW');
  });

  it('copies named fields only, into fresh plain objects', () => {
    const text = writeJob(DEMO_JOB)
      .replace('{', '{"__proto__": {"polluted": true}, "constructor": 1, "extra": 2,')
      .replace('"site": {', '"site": {"__proto__": {"polluted": true}, "extra": 3,');
    const job = jobOf(parseJob(text));
    expect(job).toStrictEqual(DEMO_JOB);
    expect('polluted' in job).toBe(false);
    expect(Object.getPrototypeOf(job.site)).toBe(Object.prototype);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it('takes a facing or wind of 360 as 0', () => {
    const job = jobOf(reading(withValueAt(withValueAt(DEMO_JOB, 'facingDegreesTrue', 360), 'winds.0.fromDegreesTrue', 360)));
    expect(job.facingDegreesTrue).toBe(0);
    expect(job.winds[0]?.fromDegreesTrue).toBe(0);
  });
});
