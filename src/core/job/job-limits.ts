import type { Limits } from '../text/field-schemas.ts';
import { fieldMetadata, schemaAt } from '../text/walk-schema.ts';
import { JOB_SCHEMA } from './job-schema.ts';

/**
 * Least and greatest value of a number of the job file, by its path: `ships.trueAirspeedKnots` is 30 to 400 kt.
 * RangeError for a path that is no number.
 */
export function jobLimits(path: string): Limits {
  const json = fieldMetadata(schemaAt(JOB_SCHEMA, path))?.json;
  const [least, greatest] = [json?.['minimum'], json?.['maximum']];
  if (typeof least !== 'number' || typeof greatest !== 'number') throw new RangeError(`${path} is no number of the job file`);
  return [least, greatest];
}
