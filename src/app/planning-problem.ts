import type { Job } from '../core/job/job.ts';
import { DRAWING_CHARACTER } from '../core/letters/placed-drawings.ts';
import type { SmallestHeight } from '../core/plan/flyable.ts';
import type { JobPlanProblem } from '../core/plan/plan-job.ts';
import { degreesFromRadians, radiansFromDegrees } from '../core/units/angle.ts';
import type { UnitText } from '../core/text/unit-text.ts';
import { formatNumber } from '../core/text/number-formats.ts';

/** What keeps a job from being planned, and what would mend it, in words. */
export interface PlanningProblem {
  readonly title: string;
  readonly remedies: readonly string[];
}

/** A planner's reason in the pilot's words, with what would mend it. */
export function planningProblem(problem: JobPlanProblem, job: Job, units: UnitText): PlanningProblem {
  switch (problem.kind) {
    case 'text':
      return { title: problem.reason, remedies: [] };
    case 'nothing-to-write':
      return { title: 'There is nothing to write yet.', remedies: ['Type a word.'] };
    case 'no-ship':
      return { title: 'The job has no ship.', remedies: ['Add one under Ships.'] };
    case 'same-name':
      return { title: `Two ships are called ${problem.name}: nobody could tell them apart on the radio.`, remedies: ['Give one of them another name.'] };
    case 'too-small':
      return {
        title: tooSmallWords(problem.smallest, job, units),
        remedies: sizeRemedies(problem.smallest, units),
      };
    case 'no-heading-allowed':
      return { title: 'The options forbid every heading of some stroke.', remedies: ['Choose another hour or facing, or let strokes go into the sun.'] };
  }
}

function tooSmallWords({ character }: SmallestHeight, { letters }: Job, { height }: UnitText): string {
  if (character === DRAWING_CHARACTER) return 'A drawing turns tighter than the ships do at its size. Read it again for these ships, or draw it larger.';
  return `At ${height.own(letters.heightFeet)} the ${character} is too small to fly.`;
}

/** Steepest bank worth naming as a remedy. */
const STEEPEST_DEGREES = 75;

/** From here on a level turn loads ship and pilot more than twice. */
const NAMED_LOAD_DEGREES = 60;

/** What a steep level turn asks of the ship: load 1 / cos(bank), stall speed by its root (FAA-H-8083-25C, chapter 5). */
function loadWords(bankDegrees: number): string {
  if (bankDegrees <= NAMED_LOAD_DEGREES) return '';
  const load = 1 / Math.cos(radiansFromDegrees(bankDegrees));
  return `: ${formatNumber(load, 1)} times the weight, stalling ${formatNumber(100 * (Math.sqrt(load) - 1))} % faster`;
}

/** What would let the limiting letter be written: size, bank, speed, each rounded to the side that works. */
function sizeRemedies({ heightMetres, neededBankRadians, neededAirspeedMetresPerSecond }: SmallestHeight, { height, speed }: UnitText): string[] {
  const bankDegrees = Math.ceil(degreesFromRadians(neededBankRadians));
  return [
    `Letters of ${height.text(height.rounded(heightMetres, 10, 'up'))} or more`,
    ...(bankDegrees <= STEEPEST_DEGREES ? [`or ${bankDegrees}\u00b0 of bank while writing${loadWords(bankDegrees)}`] : []),
    `or ${speed.text(speed.rounded(neededAirspeedMetresPerSecond, 1, 'down'))} true airspeed or less`,
  ];
}
