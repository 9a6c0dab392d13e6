import { jobAir } from '../job/job-air.ts';
import { jobText } from '../job/job-text.ts';
import type { Job } from '../job/job.ts';
import { millisecondsFromRfc3339 } from '../text/utc.ts';
import { type PlanGeoJson, planGeoJson } from './plan-geojson.ts';
import type { Plan } from './plan.ts';

/** A job's plan on the ground and on the clock: its last stroke ends at the read time. */
export function jobPlanGeoJson(job: Job, plan: Plan): PlanGeoJson {
  const readMilliseconds = millisecondsFromRfc3339(job.readTime) ?? 0;
  const { site, layerHeightMetres, wind } = jobAir(job);
  return planGeoJson(plan, {
    site,
    layerHeightMetres,
    wind,
    datumMilliseconds: readMilliseconds - plan.durationSeconds * 1000,
    shipNames: job.ships.map(({ name }) => name),
    readMilliseconds,
    viewElevationRadians: jobText(job).viewElevationRadians,
    hand: job.options.hand,
  });
}
