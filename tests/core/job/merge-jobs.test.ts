import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { mergeJobs, mergeWholeJobs, wholePartOf, withVersion } from '../../../src/core/job/merge-jobs.ts';

const base = DEMO_JOB;
const withShip = (job: Job, index: number, part: Partial<Job['ships'][number]>): Job => ({
  ...job,
  ships: job.ships.map((ship, each) => (each === index ? { ...ship, ...part } : ship)),
});

describe('two edits of one job', () => {
  it('stand side by side where they touch different fields, however deep', () => {
    const ours = withShip({ ...base, text: 'OURS', site: { ...base.site, elevationFeet: 12 } }, 0, { fuelGallons: 33 });
    const theirs = withShip({ ...base, notes: 'theirs', site: { ...base.site, name: 'Pier' } }, 0, { valveOnSeconds: 2 });
    const { job, conflicts } = mergeJobs(base, ours, theirs);
    expect(conflicts).toEqual([]);
    expect(job).toEqual(
      withShip({ ...base, text: 'OURS', notes: 'theirs', site: { ...base.site, elevationFeet: 12, name: 'Pier' } }, 0, { fuelGallons: 33, valveOnSeconds: 2 }),
    );
  });

  it('are named where both touch one field, which stays as it was stored', () => {
    const { job, conflicts } = mergeJobs(base, { ...base, text: 'OURS', notes: 'n' }, { ...base, text: 'THEIRS' });
    expect(job).toEqual({ ...base, text: 'THEIRS', notes: 'n' });
    expect(conflicts).toEqual([{ at: [], before: { text: base.text }, ours: { text: 'OURS' }, theirs: { text: 'THEIRS' } }]);
    expect(withVersion(job, [], { text: 'OURS' })).toEqual({ ...base, text: 'OURS', notes: 'n' });
  });

  it('never make one place of the latitude of the one and the longitude of the other', () => {
    const ours = { ...base, site: { ...base.site, latitudeDegrees: 1 } };
    const theirs = { ...base, site: { ...base.site, longitudeDegrees: 2 } };
    const { job, conflicts } = mergeJobs(base, ours, theirs);
    expect(job.site).toEqual(theirs.site);
    expect(conflicts).toEqual([
      {
        at: ['site'],
        before: { latitudeDegrees: base.site.latitudeDegrees, longitudeDegrees: base.site.longitudeDegrees },
        ours: { latitudeDegrees: 1, longitudeDegrees: base.site.longitudeDegrees },
        theirs: { latitudeDegrees: base.site.latitudeDegrees, longitudeDegrees: 2 },
      },
    ]);
    expect(withVersion(job, ['site'], conflicts[0]!.ours)).toEqual(ours);
  });

  it('take a list as one thing, for its places shift, and a bulletin with its rows', () => {
    const ours = { ...base, winds: base.winds.slice(1) };
    const theirs = { ...base, winds: base.winds.map((row, index) => (index === 0 ? { ...row, speedKnots: 99 } : row)), windsText: '' };
    const { job, conflicts } = mergeJobs(base, ours, theirs);
    expect(job).toEqual(theirs);
    expect(conflicts.map(({ ours: fields }) => Object.keys(fields))).toEqual([['winds', 'windsText']]);
  });

  it('take what either entered as entered', () => {
    const unsaid = { ...base, notEntered: ['readTime', 'facingDegreesTrue', 'layer.altitudeFeet'] };
    const { job } = mergeJobs(
      unsaid,
      { ...unsaid, notEntered: ['facingDegreesTrue', 'layer.altitudeFeet'] },
      { ...unsaid, notEntered: ['readTime', 'layer.altitudeFeet'] },
    );
    expect(job.notEntered).toEqual(['layer.altitudeFeet']);
  });

  it('are the stored object itself where nothing is new, though it was read anew', () => {
    const again = structuredClone(base);
    expect(mergeJobs(base, structuredClone(base), again).job).toBe(again);
  });

  it('are not put together to what is no job: all of ours is named', () => {
    const ours = withShip({ ...base, notes: 'n' }, 0, { writingBankDegrees: 50 });
    const theirs = withShip(base, 0, { maximumBankDegrees: 48 });
    const { job, conflicts } = mergeWholeJobs(base, ours, theirs);
    expect(job).toBe(theirs);
    expect(conflicts.flatMap(({ ours: fields }) => Object.keys(fields)).toSorted()).toEqual(['notes', 'ships']);
  });

  it('are put back through a place that is there no more by changing nothing', () => {
    expect(withVersion(base, ['ships', 7], { fuelGallons: 1 })).toEqual(base);
  });
});

it('what is whole of a job is all but the parts at fault', () => {
  const typed = { ...base, notes: 'n', letters: { ...base.letters, heightFeet: 4 } };
  expect(wholePartOf(typed, base)).toEqual({ ...base, notes: 'n' });
  expect(wholePartOf({ ...base, notes: 'n' }, base).notes).toBe('n');
});
