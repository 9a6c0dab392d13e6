import * as v from 'valibot';
import type { SeenSmoke } from '../../core/debrief/smoke-intervals.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

const SCHEMA = v.pipe(
  v.array(
    v.pipe(
      v.object({ onSeconds: v.pipe(v.number(), v.finite()), offSeconds: v.pipe(v.number(), v.finite()) }),
      v.check(({ onSeconds, offSeconds }) => offSeconds > onSeconds),
    ),
  ),
  v.maxLength(500),
);

const settingOf = (flightId: string): string => `seen-smoke/${flightId}`;

/** Smoke marked by hand on a flight's time line; none where nobody did or what is stored is no longer understood. */
export async function readSeenMarks(database: Database, flightId: string): Promise<readonly SeenSmoke[]> {
  const read = v.safeParse(SCHEMA, await readSetting(database, settingOf(flightId)));
  return read.success ? read.output : [];
}

/** Stores a flight's marks. Rejects with a `StoreFault`. */
export function saveSeenMarks(database: Database, flightId: string, seen: readonly SeenSmoke[]): Promise<void> {
  return saveSetting(database, settingOf(flightId), seen);
}
