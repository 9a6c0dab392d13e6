import { type Lesson, shipAfterLesson } from '../../core/debrief/lessons/lessons.ts';
import { type LearntLesson, weighLessons } from '../../core/debrief/lessons/weigh-lessons.ts';
import type { Job } from '../../core/job/job.ts';
import { calibrationFrom, type SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import type { Database } from '../../store/database.ts';
import type { StoredFlight } from '../../store/schema.ts';
import type { JobShelf } from '../jobs/shelf-types.ts';
import { type KeptThings, readKept, saveKept } from '../kept/kept-things.ts';
import { lessonOwner, readLearnt, saveLearnt } from '../kept/learnt-lessons.ts';
import { readSmokeCalibration, saveSmokeCalibration } from '../smoke-settings.ts';

export interface CarryRequest {
  readonly database: Database;
  readonly jobs: Pick<JobShelf, 'save'>;
  readonly before: Job;
  readonly shipIndex: number;
  readonly lesson: Lesson;
  /** A real one. */
  readonly flight: StoredFlight;
}

/** What is learnt and believed of the smoke after a lesson, or after it was taken back. */
export interface LearntState {
  readonly learnt: readonly LearntLesson[];
  readonly calibration: SmokeCalibration | null;
}

/** Rejects with a `StoreFault`; RangeError where the flight was none, which the desk has asked before. */
export async function carryIntoKept(request: CarryRequest): Promise<LearntState & { readonly words: string; undo(): Promise<LearntState> }> {
  const { database, jobs, before, shipIndex, lesson, flight } = request;
  if (flight.kind !== 'flight') throw new RangeError(`a ${flight.kind} teaches nothing that is kept`);
  const ship = before.ships[shipIndex];
  if (ship === undefined) throw new RangeError(`there is no ship ${shipIndex}`);
  const [learntBefore, kept, calibrationBefore] = await Promise.all([readLearnt(database), readKept(database), readSmokeCalibration(database)]);
  const owner = lessonOwner(lesson.kind, ship);
  const item: LearntLesson = {
    id: `${flight.id}/${lesson.kind}`,
    flightId: flight.id,
    atMilliseconds: flight.startedAtMilliseconds,
    kind: lesson.kind,
    owner,
    ...lesson.suggested,
  };
  const learnt = [...learntBefore.filter(({ id }) => id !== item.id), item].toSorted((one, other) => one.atMilliseconds - other.atMilliseconds);
  const together = learnt.filter((each) => each.kind === lesson.kind && each.owner === owner);
  const suggested = weighLessons(together) ?? lesson.suggested;
  const weighed: Lesson = { ...lesson, suggested };
  const over = together.length === 1 ? '' : `, weighed over ${together.length} flights`;

  const write = async (job: Job, base: Job, things: KeptThings, list: readonly LearntLesson[], calibration: SmokeCalibration | null): Promise<LearntState> => {
    await saveLearnt(database, list);
    if (things !== kept || hasKept) await saveKept(database, things);
    if (lesson.kind === 'spreading') await saveSmokeCalibration(database, calibration);
    // What was edited since stays.
    else await jobs.save(job, base);
    return { learnt: list, calibration };
  };
  const hasKept = ship.keptId !== null && kept.ships.some(({ id }) => id === ship.keptId);
  const keptAfter = hasKept
    ? { ...kept, ships: kept.ships.map((each) => (each.id === ship.keptId ? { ...each, ship: shipAfterLesson(each.ship, weighed) } : each)) }
    : kept;
  const jobAfter = { ...before, ships: before.ships.map((each, index) => (index === shipIndex ? shipAfterLesson(each, weighed) : each)) };
  const calibrationAfter = lesson.kind === 'spreading' ? calibrationFrom(suggested) : calibrationBefore;
  const state = await write(jobAfter, before, keptAfter, learnt, calibrationAfter);
  return {
    ...state,
    words:
      lesson.kind === 'spreading'
        ? `The smoke\u2019s spreading was carried over${over}.`
        : `Carried into ${ship.name}\u2019s settings${hasKept ? ', also where it is kept' : ''}${over}.`,
    undo: () => write(before, jobAfter, kept, learntBefore, calibrationBefore),
  };
}
