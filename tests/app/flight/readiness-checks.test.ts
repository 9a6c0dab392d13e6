import { describe, expect, it } from 'vitest';
import { batteryCheck, clockCheck, positionCheck, shellCheck, soundCheck, storageCheck, wakeLockCheck } from '../../../src/app/flight/readiness-checks.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Fix } from '../../../src/core/tracking/fix.ts';

const fix = (changes: Partial<Fix> = {}): Fix => ({
  latitudeDegrees: DEMO_JOB.site.latitudeDegrees,
  longitudeDegrees: DEMO_JOB.site.longitudeDegrees,
  accuracyMetres: 5,
  altitudeMetres: null,
  groundSpeedMetresPerSecond: null,
  trackDegrees: null,
  stampMilliseconds: null,
  ...changes,
});
const position = (changes: Partial<Parameters<typeof positionCheck>[0]>) => positionCheck({ fix: null, lost: null, waitedLong: false, ...changes }, DEMO_JOB);

it('shellCheck tells two broken files from a whole app, and files that were mended', () => {
  expect(shellCheck('complete', { whole: 88, repaired: 0, broken: ['a.js', 'b.css'] })).toMatchObject({
    state: 'bad',
    says: '2 files of the app on this device are missing or altered: it may not open again offline.',
  });
  expect(shellCheck('complete', { whole: 88, repaired: 0, broken: ['a.js'] })).toMatchObject({
    says: 'One file of the app on this device is missing or altered: it may not open again offline.',
  });
  expect(shellCheck('complete', { whole: 88, repaired: 2, broken: [] })).toMatchObject({
    state: 'good',
    says: 'The whole app is on this device; 2 damaged files were fetched again.',
  });
  expect(shellCheck('complete', null).state).toBe('open');
});

describe('positionCheck', () => {
  it('names each fault apart, with what mends it', () => {
    const faults = [
      position({ lost: 'permission' }),
      position({ lost: 'unavailable', waitedLong: true }),
      position({ fix: fix({ accuracyMetres: 12_000 }), waitedLong: true }),
      position({ fix: fix({ accuracyMetres: 350 }), waitedLong: true }),
    ];
    for (const { state, remedy } of faults) {
      expect(state).toBe('bad');
      expect(remedy).not.toBe('');
    }
    expect(faults.map(({ says }) => says)).toEqual([
      'This page is not allowed to know the location.',
      'No fix came.',
      'Only an approximate location, to 12 km. Nothing can be cued from it.',
      'Only an approximate location, to 350 m. Nothing can be cued from it.',
    ]);
  });

  it('waits before it calls a receiver missing', () => {
    expect(position({ lost: 'unavailable' }).state).toBe('open');
  });

  it('cautions a place that is not the job’s', () => {
    const far = position({ fix: fix({ latitudeDegrees: DEMO_JOB.site.latitudeDegrees + 1 }), waitedLong: true });
    expect(far.state).toBe('caution');
    // A degree of latitude is 60 NM to within a third of one.
    expect(far.says).toContain('60 NM (111 km) from Lake Ondine');
  });

  it('is content with a precise fix near the job, and says how precise', () => {
    expect(position({ fix: fix(), waitedLong: true })).toMatchObject({ state: 'good', says: 'Precise to 5 m.' });
    expect(position({ fix: fix({ accuracyMetres: 60 }), waitedLong: true })).toMatchObject({ state: 'caution', says: 'Precise to 60 m only.' });
  });
});

it('clockCheck tells a clock that is ahead or behind, and one that is neither, by how old the fixes are as they arrive', () => {
  expect(clockCheck([])).toMatchObject({ state: 'open' });
  expect(clockCheck([0.6, 0.7, 0.6])).toMatchObject({ name: 'Clock', state: 'good' });
  expect(clockCheck([2.6, 2.6])).toMatchObject({ state: 'caution', says: expect.stringContaining('2.0 s ahead') as string });
  expect(clockCheck([-1.4])).toMatchObject({ state: 'caution', says: expect.stringContaining('1.4 s behind') as string });
  expect(clockCheck([0.4, 1.4])).toMatchObject({ state: 'caution', says: expect.stringContaining('0.4 and 1.4') as string });
});

describe('the other checks', () => {
  it('never leave a caution without what mends it', () => {
    const all = [
      storageCheck({ state: 'best-effort', freeBytes: 1e9 }),
      storageCheck({ state: 'unknown', freeBytes: null }),
      storageCheck({ state: 'persistent', freeBytes: 1e6 }),
      shellCheck('unsupported', { whole: 90, repaired: 0, broken: [] }),
      shellCheck('failed', { whole: 90, repaired: 0, broken: [] }),
      soundCheck('untouched'),
      soundCheck('off'),
      wakeLockCheck('refused'),
      wakeLockCheck('unsupported'),
      batteryCheck({ charge: 0.3, charging: false }),
    ];
    for (const check of all) {
      expect(check.state, check.says).toBe('caution');
      expect(check.remedy, check.says).not.toBe('');
    }
  });

  it('are good when all is well', () => {
    const all = [
      storageCheck({ state: 'persistent', freeBytes: 1e9 }),
      shellCheck('complete', { whole: 90, repaired: 0, broken: [] }),
      soundCheck('on'),
      wakeLockCheck('held'),
      batteryCheck({ charge: 0.2, charging: true }),
      batteryCheck({ charge: 0.8, charging: false }),
    ];
    for (const check of all) expect(check, check.name).toMatchObject({ state: 'good', remedy: '' });
  });
});
