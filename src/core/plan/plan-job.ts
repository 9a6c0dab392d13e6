import { jobText } from '../job/job-text.ts';
import { windFromVector } from '../earth/wind-vector.ts';
import type { Job, JobShip } from '../job/job.ts';
import { WIDEST_OWN_CURVE_HEIGHTS } from '../letters/grown-curves.ts';
import { jobLayout } from './job-layout.ts';
import { writtenWords } from '../job/written-words.ts';
import { kilogramsFromPounds, metresFromFeet } from '../units/quantity.ts';
import { commonLimits } from '../job/common-limits.ts';
import { smallestFlyableHeight, type SmallestHeight } from './flyable.ts';
import { type JobAir, jobAir } from '../job/job-air.ts';
import { movedPlan } from './moved-plan.ts';
import { placeTextMiddle } from './place.ts';
import type { Plan } from './plan.ts';
import { type PlanOptions, planTextSteps } from './plan-text.ts';
import type { PlanProblem, PlanProgress } from './plan-result.ts';
import { shipModel } from '../paths/ship-model.ts';
import { sunPenaltySeconds } from './sun-penalty.ts';
import { turnRadiusMetres } from '../paths/turn.ts';

/** Why a job has no plan: the planner's reasons, a text that cannot be drawn, no ship. */
export type JobPlanProblem =
  | PlanProblem
  | { readonly kind: 'text'; readonly reason: string }
  | { readonly kind: 'no-ship' }
  /** Two ships cannot be told apart on the radio. */
  | { readonly kind: 'same-name'; readonly name: string };

/** A job's plan, placed for its read time. */
export interface JobPlan {
  readonly plan: Plan;
  /** From the datum to the read time: the text is read as its last stroke ends. */
  readonly readSeconds: number;
  readonly air: JobAir;
  /** How small the text could be written by this ship, and what sets it; null when straight strokes alone do. */
  readonly smallest: SmallestHeight | null;
}

export type JobPlanResult = { readonly ok: true; readonly value: JobPlan } | { readonly ok: false; readonly problem: JobPlanProblem };

const SECONDS_PER_MINUTE = 60;

/**
 * Flown by cues with an ordinary receiver, smoke lies 50 m (root mean square) off its place in the word, measured over
 * 150 flights in a browser; that of two ships against each other is then 70 m, and twice that is kept.
 */
const PLACE_KEEPING_METRES = 140;

/**
 * The ships of a formation are planned with run-ins so much longer than they need: who is slower than planned flies them
 * shorter, who is faster longer, and all keep to the timetable. An airspeed 5 % off makes 4 s in the 80 s of a stroke and
 * its way.
 */
const RUN_IN_SPARE_SECONDS = 4;
/** Their timetable is that of a ship a little slower than planned, since a ship that is slow can make up less than one that is fast can wait. */
const PACE_SHARE = 0.98;

/** How far two ships may slip in time against each other: 3.6 s early to 6 s late, and 2.4 s between their clocks. */
const SLIP_SECONDS = 12;

/** Every ship with the oil its own burner takes. */
function withOwnOil(plan: Plan, ships: readonly JobShip[]): Plan {
  return {
    ...plan,
    ships: plan.ships.map((ship) => ({
      ...ship,
      oilKilograms: (ship.smokeSeconds * kilogramsFromPounds(ships[ship.shipIndex]?.smokeOilPoundsPerMinute ?? 0)) / SECONDS_PER_MINUTE,
    })),
  };
}

/** Whether two names sound alike on the radio: case and spaces are not heard. */
function sameCall(one: string, other: string): boolean {
  const heard = (name: string): string => name.toLocaleLowerCase('en').replace(/\s+/g, '');
  return heard(one) === heard(other);
}

/**
 * The plan of a job's ships, in steps: typeset, ordered, placed so that the text's middle hangs at the wanted elevation
 * when its last stroke ends. The same job gives the same plan, so that what was looked at is what is flown.
 *
 * Where the winds give none at the layer the air is taken as calm and `air.windMissing` says so.
 */
export function* planJobSteps(job: Job): Generator<PlanProgress, JobPlanResult> {
  const [lead] = job.ships;
  if (lead === undefined) return { ok: false, problem: { kind: 'no-ship' } };
  const double = job.ships.find(({ name }, index) => job.ships.findIndex((other) => sameCall(other.name, name)) < index);
  if (double !== undefined) return { ok: false, problem: { kind: 'same-name', name: double.name } };
  const limits = commonLimits(job.ships, job.options);
  const { letterHeightMetres: heightMetres, facingRadians, viewElevationRadians } = jobText(job);
  const setting = jobLayout(job, turnRadiusMetres(limits.trueAirspeedMetresPerSecond, limits.writingBankRadians));
  if (!setting.ok) return { ok: false, problem: { kind: 'text', reason: setting.reason } };
  const air = jobAir(job);
  const options: PlanOptions = {
    ...limits,
    ...(job.ships.length > 1 ? { runInSeconds: limits.runInSeconds + RUN_IN_SPARE_SECONDS, paceShare: PACE_SHARE } : {}),
    text: writtenWords(job),
    frame: { facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } },
    letterHeightMetres: heightMetres,
    textWidthMetres: setting.layout.widthMetres,
    letterOrder: job.options.letterOrder,
    progress: job.options.progress,
    windFromRadians: air.directionKnown ? windFromVector(air.wind).fromRadians : null,
    oilKilogramsPerSecond: kilogramsFromPounds(lead.smokeOilPoundsPerMinute) / SECONDS_PER_MINUTE,
    longestUnfinishedSeconds: job.options.longestUnfinishedSeconds,
    ships: job.ships.length,
    separationMetres: metresFromFeet(job.options.separationFeet),
    placeKeepingMetres: PLACE_KEEPING_METRES,
    slipSeconds: SLIP_SECONDS,
    heightStepMetres: metresFromFeet(job.options.heightStepFeet),
    joinUpStepMetres: metresFromFeet(job.options.joinUpStepFeet),
    ...(job.options.sunOffNose ? { strokePenaltySeconds: sunPenaltySeconds(job, setting.layout.letters.length) } : {}),
  };
  const result = yield* planTextSteps(setting.layout.letters, options);
  if (!result.ok) return result;
  const readSeconds = result.plan.durationSeconds;
  // Letters change a little for ships that turn widely: how small they can be is told by their widest drawings.
  const widest = jobLayout(job, WIDEST_OWN_CURVE_HEIGHTS * heightMetres);
  const wish = {
    facingRadians,
    viewElevationRadians,
    layerAboveSiteMetres: air.layerAboveSiteMetres,
  };
  return {
    ok: true,
    value: {
      plan: movedPlan(withOwnOil(result.plan, job.ships), placeTextMiddle(wish, air.wind, readSeconds)),
      readSeconds,
      air,
      smallest: smallestFlyableHeight(widest.ok ? widest.layout.letters : [], heightMetres, shipModel(limits), limits.writingBankRadians),
    },
  };
}

/**
 * {@link planJobSteps} run to its end.
 *
 * @oracle
 */
export function planJob(job: Job): JobPlanResult {
  const steps = planJobSteps(job);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
