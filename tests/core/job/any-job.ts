import { fc } from '../../property.ts';
import type { Job, JobConditions } from '../../../src/core/job/job.ts';
import { JOB_SCHEMA } from '../../../src/core/job/job-schema.ts';
import { anyOf } from '../text/any-of-schema.ts';

const ANY_TIME = fc.date({ min: new Date(0), max: new Date('2099-12-31T00:00:00Z'), noInvalidDate: true }).map((date) => date.toISOString());
const TEXTS = {
  ...Object.fromEntries(
    ['deadlineTime', 'callTime', 'reportTime', 'spareTimes', 'sentTime', 'paidTime', 'atTime', 'ofTime', 'validTime', 'issuedTime'].map((key) => [
      key,
      ANY_TIME,
    ]),
  ),
  text: fc.oneof(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 80 }), fc.constant('GO\nSAIL')),
  timeZone: fc.constant('America/New_York'),
  readTime: ANY_TIME,
  notes: fc.string({ unit: 'grapheme', maxLength: 300 }),
};

/** Any job that a job file can hold. */
export function anyJob(): fc.Arbitrary<Job> {
  return (anyOf(JOB_SCHEMA, TEXTS) as fc.Arbitrary<Job>)
    .map((job) => ({
      ...job,
      ships: job.ships.map((ship) => ({ ...ship, maximumBankDegrees: Math.max(ship.maximumBankDegrees, ship.writingBankDegrees, ship.turningBankDegrees) })),
      conditions: soundClouds(job.conditions),
      forecasts: job.forecasts.map((forecast) => ({ ...forecast, conditions: soundClouds(forecast.conditions) })),
    }))
    .filter((job) => job.layer.altitudeFeet > job.site.elevationFeet);
}

function soundClouds(conditions: JobConditions): JobConditions {
  return {
    ...conditions,
    clouds: conditions.clouds?.map((cloud) => ({ ...cloud, topFeet: cloud.topFeet === null ? null : Math.max(cloud.baseFeet, cloud.topFeet) })) ?? null,
  };
}
