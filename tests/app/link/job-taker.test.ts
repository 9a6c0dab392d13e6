import { describe, expect, it } from 'vitest';
import { jobDigest } from '../../../src/app/link/job-digest.ts';
import { createJobTaker } from '../../../src/app/link/job-taker.ts';
import { joinAddress } from '../../../src/app/link/join-address.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { framesFromText } from '../../../src/core/wire/link-frames.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { createHash } from 'node:crypto';

const FRAMES = framesFromText(writeJob(DEMO_JOB), 'a');
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 20));

describe('a job on its way to this device', () => {
  it('has the digest that SHA-256 gives (node:crypto), and another when anything in it changes', async () => {
    expect(await jobDigest(DEMO_JOB)).toBe(createHash('sha256').update(writeJob(DEMO_JOB)).digest('hex').slice(0, 24));
    expect(await jobDigest({ ...DEMO_JOB, viewElevationDegrees: 36 })).not.toBe(await jobDigest(DEMO_JOB));
  });

  it('is taken from its codes and matches its join code', async () => {
    const taker = createJobTaker(null);
    taker.takeCode(joinAddress({ jobId: DEMO_JOB.id, digest: await jobDigest(DEMO_JOB), linkAddress: null }, { origin: 'https://h', pathname: '/' }));
    for (const frame of FRAMES.toReversed()) {
      taker.takeCode(frame);
      taker.takeCode(frame);
    }
    await settled();
    expect(taker.state.value).toEqual({ kind: 'taken', job: DEMO_JOB, matches: true });
  });

  it('says how many codes it has, and does not mind codes of other things', () => {
    const taker = createJobTaker(null);
    taker.takeCode(FRAMES[0]!);
    taker.takeCode('WIFI:T:WPA;S:pier;P:secret;;');
    expect(taker.state.value).toEqual({ kind: 'reading', have: 1, count: FRAMES.length });
  });

  it('is known for another than the one that was wanted', async () => {
    const taker = createJobTaker('0'.repeat(24));
    for (const frame of FRAMES) taker.takeCode(frame);
    await settled();
    expect(taker.state.value).toMatchObject({ kind: 'taken', matches: false });
  });

  it('is refused when it is none, in words', async () => {
    const taker = createJobTaker(null);
    for (const frame of framesFromText('{"format":"quillwind-job","version":1}', 'b')) taker.takeCode(frame);
    expect(taker.state.value).toMatchObject({ kind: 'refused', reason: expect.stringContaining('is missing') });
    await taker.takeFile(new File(['x'], 'x.json'));
    expect(taker.state.value).toMatchObject({ kind: 'refused', reason: expect.stringContaining('JSON') });
  });
});
