import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { withJobNumber } from '../../../src/app/draw/job-fields.ts';
import { copiedJob, newJob } from '../../../src/app/jobs/new-job.ts';
import { createPlanner, planOrReason } from '../../../src/app/planner.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { isEntered, missingEntries, missingFirstWords } from '../../../src/core/job/not-entered.ts';
import { createDatabase } from '../../../src/store/database.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';

const job = newJob(Date.UTC(2027, 0, 1), 'America/Recife');

/** Every text and number in a value. */
function leaves(value: unknown, path = ''): [string, string | number][] {
  if (typeof value === 'string' || typeof value === 'number') return [[path, value]];
  return typeof value === 'object' && value !== null ? Object.entries(value).flatMap(([key, inner]) => leaves(inner, `${path}.${key}`)) : [];
}

describe('a new job', () => {
  it('has nothing of the demo: no word, no place, no wind, no radio, no tank', () => {
    const texts = new Set(leaves(DEMO_JOB).flatMap(([, value]) => (typeof value === 'string' && value.length > 4 ? [value] : [])));
    // The file's format and the choices of the options are no values of the demo.
    const common = ['quillwind-job', 'reading', 'into-wind', 'round-capitals'];
    expect(leaves(job).filter(([, value]) => typeof value === 'string' && texts.has(value) && !common.includes(value))).toEqual([]);
    expect([job.site.latitudeDegrees, job.site.longitudeDegrees, job.winds, job.frequencies, job.namedPoints]).toEqual([0, 0, [], [], []]);
    expect(job.site.timeZone).toBe('America/Recife');
    expect(job.demo).toBe(false);
  });

  it('names everything that nobody has said, what is needed first before the rest', () => {
    expect(missingEntries(job).map(({ words }) => words)).toEqual([
      'the words',
      'the site\u2019s position',
      'the site\u2019s elevation',
      'where the crowd looks',
      'the read time',
      'the layer',
      'how the ships fly (airspeed, banks, roll)',
      'smoke oil carried and burnt',
      'how soon the smoke answers the switch',
      'the site\u2019s name',
      'winds aloft',
      'fuel carried, burnt and in reserve',
      'frequencies',
      'the words that call it off',
    ]);
    expect(missingEntries(DEMO_JOB)).toEqual([]);
  });

  it('is drawn as soon as there is a word, but neither placed nor flown', async () => {
    const worded = { ...job, text: 'SAIL' };
    expect(planJob(worded).ok).toBe(true);
    const planner = createPlanner(async () => ({ planJob: async (asked) => planJob(asked), dispose: () => {} }));
    const asked = await planOrReason(planner, worded, createDatabase());
    expect(asked.ok ? '' : asked.reason).toMatch(/^Not entered yet: the site\u2019s position, .* Enter it on Draw\.$/);
  });

  it('knows a number as soon as it is entered, also the one that stood there', () => {
    const entered = withJobNumber(job, 'facingDegreesTrue', 0);
    expect([isEntered(job, 'facingDegreesTrue'), isEntered(entered, 'facingDegreesTrue')]).toEqual([false, true]);
    const paths = job.notEntered.filter((path) => path !== 'readTime') as Parameters<typeof withJobNumber>[1][];
    const whole = paths.reduce<Job>((each, path) => withJobNumber(each, path, path === 'layer.altitudeFeet' ? 9000 : 45), { ...job, text: 'SAIL' });
    expect(missingFirstWords(whole)).toBe('Not entered yet: the read time.');
  });

  it('is a demo only as a copy of it', () => {
    expect(copiedJob({ ...DEMO_JOB, demo: false }).demo).toBe(true);
    expect(copiedJob(job).demo).toBe(false);
  });
});
