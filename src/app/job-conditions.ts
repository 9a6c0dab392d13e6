import * as v from 'valibot';
import type { Database } from '../store/database.ts';
import { readSetting, saveSetting } from '../store/settings.ts';

/** What was looked up on the day of a job and is no part of its file; null where nobody has looked. */
export interface JobConditions {
  readonly visibilityStatuteMiles: number | null;
  /** An empty list is a clear sky. */
  readonly clouds: readonly ConditionsCloud[] | null;
}

export interface ConditionsCloud {
  /** Above mean sea level. */
  readonly baseFeet: number;
  /** Null when it is not reported. */
  readonly topFeet: number | null;
  /** Eighths of the sky, 1 to 8. */
  readonly oktas: number;
}

/** Nobody has looked. */
export const UNKNOWN_CONDITIONS: JobConditions = { visibilityStatuteMiles: null, clouds: null };

const SCHEMA = v.object({
  visibilityStatuteMiles: v.nullable(v.pipe(v.number(), v.minValue(0.1), v.maxValue(100))),
  clouds: v.nullable(
    v.pipe(
      v.array(
        v.object({
          baseFeet: v.pipe(v.number(), v.minValue(-1500), v.maxValue(60_000)),
          topFeet: v.nullable(v.pipe(v.number(), v.minValue(-1500), v.maxValue(60_000))),
          oktas: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(8)),
        }),
      ),
      v.maxLength(8),
    ),
  ),
});

const settingOf = (jobId: string): string => `conditions/${jobId}`;

/** The conditions stored for a job; {@link UNKNOWN_CONDITIONS} for none or for what is no longer understood. */
export async function readJobConditions(database: Database, jobId: string): Promise<JobConditions> {
  const read = v.safeParse(SCHEMA, await readSetting(database, settingOf(jobId)));
  return read.success ? read.output : UNKNOWN_CONDITIONS;
}

/** Stores a job's conditions. Rejects with a `StoreFault`. */
export function saveJobConditions(database: Database, jobId: string, conditions: JobConditions): Promise<void> {
  return saveSetting(database, settingOf(jobId), conditions);
}
