import * as v from 'valibot';
import type { Lesson } from '../../core/debrief/lessons/lessons.ts';
import type { LearntLesson } from '../../core/debrief/lessons/weigh-lessons.ts';
import type { JobShip } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';

const NUMBER = v.pipe(v.number(), v.finite());
const LEARNT = v.object({
  id: v.string(),
  flightId: v.string(),
  atMilliseconds: NUMBER,
  kind: v.picklist(['valve-on', 'valve-off', 'reaction', 'writing-bank', 'airspeed', 'spreading', 'oil-flow'] satisfies Lesson['kind'][]),
  owner: v.string(),
  value: NUMBER,
  sigma: v.pipe(NUMBER, v.minValue(0)),
  count: NUMBER,
});
const SETTING = 'lessons/learnt';

/** What real flights taught so far, oldest first. Rejects with a `StoreFault`. */
export async function readLearnt(database: Database): Promise<readonly LearntLesson[]> {
  const stored = await readSetting(database, SETTING);
  return (Array.isArray(stored) ? (stored as readonly unknown[]) : [])
    .flatMap((item) => {
      const read = v.safeParse(LEARNT, item);
      return read.success ? [read.output] : [];
    })
    .toSorted((one, other) => one.atMilliseconds - other.atMilliseconds);
}

/** Rejects with a `StoreFault`. */
export function saveLearnt(database: Database, learnt: readonly LearntLesson[]): Promise<void> {
  return saveSetting(database, SETTING, learnt);
}

/** Whose a lesson is: of the ship (a kept one by its id), of the pilot who flies it, or of the oil. */
export function lessonOwner(kind: Lesson['kind'], ship: JobShip): string {
  const own = ship.keptId ?? ship.name;
  switch (kind) {
    case 'spreading':
      return `oil:${ship.oilKind}`;
    case 'reaction':
    case 'writing-bank':
      return `pilot:${own}`;
    default:
      return `ship:${own}`;
  }
}
