import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { jobDigest } from '../../../src/app/link/job-digest.ts';
import { jobFile } from '../../../src/app/jobs/export-job.ts';
import { createJobShelf } from '../../../src/app/jobs/job-shelf.ts';
import { keptOverlay } from '../../../src/app/kept-overlay.ts';
import { keepTaken } from '../../../src/app/link/keep-taken.ts';
import { createJobTaker } from '../../../src/app/link/job-taker.ts';
import { joinAddress } from '../../../src/app/link/join-address.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { framesFromText } from '../../../src/core/wire/link-frames.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { createDatabase } from '../../../src/store/database.ts';
import { saveOverlay } from '../../../src/store/overlays.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { createHash } from 'node:crypto';

const FRAMES = framesFromText(writeJob(DEMO_JOB), 'a');
const OVERLAY = { fileName: 'areas.geojson', text: '{"type":"FeatureCollection","features":[]}' };
async function exported(job: Job): Promise<File> {
  const database = createDatabase({ name: 'sender' });
  await saveOverlay(database, job.id, OVERLAY);
  const { name, content } = await jobFile(database, job, 0);
  return new File([content], name);
}
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
    expect(taker.state.value).toEqual({ kind: 'taken', job: DEMO_JOB, overlay: null, matches: true });
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

  it('is taken from the file that Export makes of a job with an overlay, and kept with it', async () => {
    const taker = createJobTaker(await jobDigest(DEMO_JOB));
    await taker.takeFile(await exported(DEMO_JOB));
    const taken = taker.state.value;
    expect(taken).toEqual({ kind: 'taken', job: DEMO_JOB, overlay: OVERLAY, matches: true });
    if (taken.kind !== 'taken') throw new Error('not taken');
    const other = createDatabase({ name: 'other' });
    const shelf = createJobShelf(other, () => 1);
    await shelf.refresh();
    const kept = keptOverlay(other, DEMO_JOB.id);
    expect(await keepTaken(taken, shelf, kept)).toBe(true);
    expect(await kept.read()).toEqual(OVERLAY);
    // What was kept with the job here stays with a copy of it.
    await kept.save({ fileName: 'ours', text: '{}' });
    expect(await keepTaken(taken, shelf, kept)).toBe(true);
    const jobs = shelf.state.value.kind === 'ready' ? shelf.state.value.jobs : [];
    const copy = jobs.find(({ id }) => id !== DEMO_JOB.id);
    expect((await keptOverlay(other, copy?.id ?? '').read())?.fileName).toBe('ours');
    expect(await kept.read()).toEqual(OVERLAY);
    // Codes bring no overlay: then the one here stays.
    expect(await keepTaken({ job: DEMO_JOB, overlay: null }, shelf, kept)).toBe(true);
    expect(await kept.read()).toEqual(OVERLAY);
  });

  it('is refused in words where its packed file was cut or holds more', async () => {
    const taker = createJobTaker(null);
    const whole = await (await exported(DEMO_JOB)).text();
    const lines = whole.split('\n');
    await taker.takeFile(new File([`${lines.slice(0, -2).join('\n')}\n`], 'cut.quillwind'));
    expect(taker.state.value).toMatchObject({ kind: 'refused', reason: expect.stringContaining('cut') as string });
    await taker.takeFile(new File([[lines[0], lines[1], ...lines.slice(1)].join('\n')], 'two.quillwind'));
    expect(taker.state.value).toMatchObject({ kind: 'refused', reason: expect.stringContaining('Import on Jobs takes it') as string });
  });
});
