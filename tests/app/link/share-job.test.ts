import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { readExportedJob } from '../../../src/app/jobs/read-exported-job.ts';
import { fileForOthers } from '../../../src/app/link/share-job.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { withoutOffice } from '../../../src/core/job/office-part.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';
import { createDatabase } from '../../../src/store/database.ts';
import { saveOverlay } from '../../../src/store/overlays.ts';

const JOB = { ...DEMO_JOB, booking: { ...DEMO_JOB.booking, client: 'Ondine Lodge' } };

describe('a job\u2019s file for another device', () => {
  it('takes the overlay along and leaves the office\u2019s part here', async () => {
    const database = createDatabase({ name: 'with-overlay' });
    const overlay = { fileName: 'areas.geojson', text: '{"type":"FeatureCollection","features":[]}' };
    await saveOverlay(database, JOB.id, overlay);
    const made = await fileForOthers(database, JOB);
    expect(made.name).toMatch(/\.quillwind$/);
    expect(await readExportedJob(new File([made.content], made.name))).toEqual({ ok: true, job: withoutOffice(JOB), overlay });
  });

  it('is the plain job file where there is none', async () => {
    const made = await fileForOthers(createDatabase({ name: 'without-overlay' }), JOB);
    expect(made).toMatchObject({ name: expect.stringMatching(/\.json$/) as string, content: writeJob(withoutOffice(JOB)) });
  });
});
