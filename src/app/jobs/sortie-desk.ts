import { type ReadonlySignal, signal } from '@preact/signals';
import * as v from 'valibot';
import { flySortie, type SortieChange, sortieChanges, type SortieResult, type SortieShip, type SortieStop } from '../../core/days/sortie.ts';
import { bearingDistance } from '../../core/earth/bearing-distance.ts';
import type { Job } from '../../core/job/job.ts';
import { missingFirstWords } from '../../core/job/not-entered.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { metresPerSecondFromKnots, poundsFromKilograms } from '../../core/units/quantity.ts';
import type { Database } from '../../store/database.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';
import type { Planner } from '../planner.ts';
import { planOrReason } from '../planner.ts';
import type { UnitText } from '../../core/text/unit-text.ts';

const CHOICE = v.object({
  jobIds: v.pipe(v.array(v.string()), v.maxLength(12)),
  refillsBefore: v.array(v.string()),
  turnRoundMinutes: v.pipe(v.number(), v.minValue(0), v.maxValue(600)),
});

/** Which jobs are flown one after the other, and where is refilled between. */
export type SortieChoice = Readonly<v.InferOutput<typeof CHOICE>>;

export type SortieState =
  | { readonly kind: 'choosing' }
  | { readonly kind: 'planning' }
  | { readonly kind: 'failed'; readonly reason: string }
  | { readonly kind: 'flown'; readonly result: SortieResult; readonly changes: readonly SortieChange[]; readonly ship: string };

/** Several words a day by one ship. */
export interface SortieDesk {
  readonly choice: ReadonlySignal<SortieChoice>;
  readonly state: ReadonlySignal<SortieState>;
  choose(change: (before: SortieChoice) => SortieChoice): void;
  /** Plans every job and flies the chain on paper; what is short is said in these units. */
  fly(jobs: readonly Job[], units: UnitText): Promise<void>;
}

const SETTING = 'sortie';

export function createSortieDesk(database: Database, planner: Planner): SortieDesk {
  const choice = signal<SortieChoice>({ jobIds: [], refillsBefore: [], turnRoundMinutes: 30 });
  const state = signal<SortieState>({ kind: 'choosing' });
  readSetting(database, SETTING).then(
    (stored) => {
      const read = v.safeParse(CHOICE, stored);
      if (read.success) choice.value = read.output;
    },
    () => {},
  );
  return {
    choice,
    state,
    choose(change) {
      choice.value = change(choice.peek());
      state.value = { kind: 'choosing' };
      saveSetting(database, SETTING, choice.peek()).catch(() => {});
    },
    async fly(all, units) {
      const { jobIds, refillsBefore, turnRoundMinutes } = choice.peek();
      const jobs = jobIds.flatMap((id) => all.find((job) => job.id === id) ?? []);
      const unready = jobs.find((job) => missingFirstWords(job) !== null);
      if (unready !== undefined) {
        state.value = { kind: 'failed', reason: `${unready.name}: ${missingFirstWords(unready) ?? ''}` };
        return;
      }
      state.value = { kind: 'planning' };
      const planned: PlannedJob[] = [];
      for (const job of jobs) {
        const made = await planOrReason(planner, job, database);
        if (!made.ok) {
          state.value = { kind: 'failed', reason: `${job.name} has no plan.` };
          return;
        }
        planned.push(made.value);
      }
      const [first] = planned;
      const lead = first?.job.ships[0];
      if (first === undefined || lead === undefined) {
        state.value = { kind: 'choosing' };
        return;
      }
      const ship: SortieShip = {
        oilPounds: lead.oilPoundsPerGallon !== null && lead.smokeTankGallons !== null ? lead.oilPoundsPerGallon * lead.smokeTankGallons : lead.smokeOilPounds,
        fuelGallons: lead.fuelGallons,
        fuelGallonsPerHour: lead.fuelGallonsPerHour,
        leastFuelGallons: lead.bingoFuelGallons ?? (lead.fuelGallonsPerHour * lead.fuelReserveMinutes) / 60,
        climbFeetPerMinute: lead.climbFeetPerMinute,
        fieldElevationFeet: first.job.site.elevationFeet,
        turnRoundSeconds: turnRoundMinutes * 60,
      };
      const stops = planned.map((each, index) => stopOf(each, planned[index - 1] ?? null, first, refillsBefore.includes(each.job.id)));
      const result = flySortie(stops, ship, units);
      state.value = { kind: 'flown', result, changes: sortieChanges(stops, ship), ship: lead.name };
    },
  };
}

/** The field is where the first job's site is: nobody has said another. */
function stopOf({ job, plan, readSeconds }: PlannedJob, before: PlannedJob | null, first: PlannedJob, refillBefore: boolean): SortieStop {
  const speed = metresPerSecondFromKnots(job.ships[0]?.trueAirspeedKnots ?? 100);
  const seconds = (from: PlannedJob): number => bearingDistance(jobAir(from.job).site, jobAir(job).site).distanceMetres / speed;
  const lead = plan.ships[0];
  const kilogramsPerSecond = lead === undefined || lead.smokeSeconds === 0 ? 0 : lead.oilKilograms / lead.smokeSeconds;
  const byLetter = new Map<number, number>();
  for (const leg of lead?.legs ?? []) {
    if (leg.kind === 'smoke')
      byLetter.set(leg.letterIndex, (byLetter.get(leg.letterIndex) ?? 0) + poundsFromKilograms((leg.endSeconds - leg.startSeconds) * kilogramsPerSecond));
  }
  return {
    name: job.name,
    firstSmokeMilliseconds: Date.parse(job.readTime) - readSeconds * 1000,
    writingSeconds: plan.durationSeconds,
    oilPoundsByLetter: [...byLetter].toSorted(([one], [other]) => one - other).map(([, pounds]) => pounds),
    layerFeet: job.layer.altitudeFeet,
    transitSeconds: before === null ? 0 : seconds(before),
    fromFieldSeconds: seconds(first),
    refillBefore,
  };
}
