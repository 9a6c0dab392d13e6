import { batch, computed, type ReadonlySignal } from '@preact/signals';
import { type Lesson, lessonsFrom } from '../../core/debrief/lessons/lessons.ts';
import { oilFlowLesson } from '../../core/debrief/lessons/oil-flow.ts';
import { ratedEnds } from '../../core/debrief/lessons/spreading.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { Job } from '../../core/job/job.ts';
import type { Database } from '../../store/database.ts';
import type { JobShelf } from '../jobs/shelf-types.ts';
import { carryIntoKept } from './carry-lesson.ts';
import { type DeskSignals, sayFailed } from './desk-signals.ts';
import type { DebriefDesk, DeskShip } from './desk-types.ts';
import { type ObservedMoment, ratingsOf } from './observed.ts';

/** What the open flight teaches, and the carrying of it into what is kept. */
export type DeskLessons = Pick<DebriefDesk, 'lessons' | 'carry'>;

/** What lessons are drawn from, and where they go. */
export interface DeskLessonsParts {
  readonly database: Database;
  readonly jobs: Pick<JobShelf, 'save'>;
  /** The open flight's, or the stored one. */
  readonly job: ReadonlySignal<Job | null>;
  /** The one that lessons go into; null where it is no longer stored. */
  readonly storedJob: ReadonlySignal<Job | null>;
  readonly ownShip: ReadonlySignal<DeskShip | null>;
  readonly observed: ReadonlySignal<readonly ObservedMoment[]>;
}

/** Follows the desk's signals; a lesson is weighed with those of earlier flights before it goes into the job, the kept ship or the smoke. */
export function createDeskLessons({ database, jobs, job, storedJob, ownShip, observed }: DeskLessonsParts, signals: DeskSignals): DeskLessons {
  const { state, own, oilLeftPounds, learnt, calibration, done, notice } = signals;
  const refuse = (line: string): void => {
    notice.value = { kind: 'failed', lines: [line] };
  };
  return {
    lessons: computed((): readonly Lesson[] => {
      const debrief = ownShip.value?.debrief ?? null;
      if (debrief === null) return [];
      const ratings = ratingsOf(observed.value, debrief.log.zeroMilliseconds + debrief.datumSeconds * 1000);
      const openJob = job.value;
      const found = lessonsFrom(debrief, ratedEnds(ratings), openJob === null ? null : jobAir(openJob).shear);
      const ship = openJob?.ships[debrief.log.setup.shipIndex];
      const left = oilLeftPounds.value;
      const flow = ship === undefined || left === null ? null : oilFlowLesson(debrief, ship.smokeOilPounds, left, ship.smokeOilPoundsPerMinute);
      return flow === null ? found : [...found, flow];
    }),
    async carry(lesson) {
      const opened = state.peek();
      const before = storedJob.peek();
      const shipIndex = own.peek()?.log.setup.shipIndex ?? 0;
      if (opened.kind !== 'open' || opened.flight.kind !== 'flight') {
        return refuse('A rehearsal or a replay teaches nothing that is kept: only what was really flown does.');
      }
      if (before?.ships[shipIndex] === undefined) {
        return refuse('The job of this flight is no longer stored, so there is nothing to carry the lesson into.');
      }
      try {
        const carried = await carryIntoKept({ database, jobs, before, shipIndex, lesson, flight: opened.flight });
        batch(() => {
          learnt.value = carried.learnt;
          calibration.value = carried.calibration;
          done.value = {
            words: carried.words,
            async undo() {
              try {
                const back = await carried.undo();
                learnt.value = back.learnt;
                calibration.value = back.calibration;
              } catch (error) {
                sayFailed(signals, 'The settings were not put back', error);
              }
              done.value = null;
            },
          };
        });
      } catch (error) {
        sayFailed(signals, 'The lesson was not carried over', error);
      }
    },
  };
}
