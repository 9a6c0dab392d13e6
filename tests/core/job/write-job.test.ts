import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';

describe('a job file', () => {
  it('has its fields in the order of the schema, whatever order the job has them in, so that equal jobs are equal bytes', () => {
    const turned = Object.fromEntries(Object.entries(DEMO_JOB).toReversed()) as unknown as typeof DEMO_JOB;
    expect(writeJob(turned)).toBe(writeJob(DEMO_JOB));
    expect(Object.keys(JSON.parse(writeJob(turned)) as object).slice(0, 6)).toEqual(['format', 'version', 'id', 'demo', 'notEntered', 'name']);
    expect(writeJob(DEMO_JOB).endsWith('}\n')).toBe(true);
  });

  it('leaves what the schema does not know behind', () => {
    expect(writeJob({ ...DEMO_JOB, stray: 1 } as never)).toBe(writeJob(DEMO_JOB));
  });
});
