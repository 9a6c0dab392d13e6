import { type PhotographDesk, createPhotographDesk } from '../../app/photographs/photograph-desk.ts';
import { jobAir } from '../../core/job/job-air.ts';
import { jobText } from '../../core/job/job-text.ts';
import type { Job } from '../../core/job/job.ts';
import { calibratedSmoke } from '../../core/sky/smoke-calibration.ts';
import type { Trail } from '../../core/sky/trail.ts';
import type { PhotographProof } from './closing/ReportPhotograph.tsx';
import { crowdMoment } from './crowd-moment.ts';
import type { FlownScene } from './flown-scene.ts';

/** The photographs of a job, measured against what was flown: the drift found, as one steady wind up to each picture. */
export function photographsOfFlight(
  database: Parameters<typeof createPhotographDesk>[0],
  job: Job,
  scene: FlownScene,
  trails: readonly Trail[],
): PhotographDesk {
  const air = jobAir(job);
  return createPhotographDesk(
    database,
    {
      jobId: job.id,
      site: air.site,
      layerAboveSiteMetres: air.layerAboveSiteMetres,
      ...jobText(job),
      wordAt(atMilliseconds) {
        const moment = crowdMoment(scene, air, calibratedSmoke(null).likely, atMilliseconds);
        const written = scene.firstSmokeMilliseconds !== null && atMilliseconds > scene.firstSmokeMilliseconds;
        return written ? { trails, atSeconds: moment.atSeconds, wind: moment.wind } : null;
      },
    },
    () => Date.now(),
  );
}

/** The photograph that was laid, for the client's report: the last of several. */
export function latestProof(desk: PhotographDesk): PhotographProof | null {
  const laid = desk.laid.value;
  const last = desk.photographs.value.findLast(({ id }) => laid.has(id));
  const measured = last === undefined ? undefined : laid.get(last.id);
  return last === undefined || measured === undefined ? null : { photograph: last, rectified: measured.answer.rectified };
}
