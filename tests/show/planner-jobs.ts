import { jobPlanGeoJson } from '../../src/core/plan/job-plan-geojson.ts';
import { planJob } from '../../src/core/plan/plan-job.ts';
import { faultsOf } from '../core/plan/export-checker.ts';
import { randomJob } from '../core/plan/random-job.ts';
import type { Figure } from './figures.ts';
import { atMost, reported } from './limits.ts';

/** Fewer by QUILLWIND_JOBS, and other ones by QUILLWIND_FROM. */
const JOBS = Number(process.env['QUILLWIND_JOBS'] ?? 10_000);
const FROM = Number(process.env['QUILLWIND_FROM'] ?? 0);
const TOLD_EVERY = 250;

/** Random jobs of one to three ships, planned, exported, and judged by one who has nothing but the file. */
export function jobFigures(): Figure[] {
  let [planned, faulty, unasked] = [0, 0, 0];
  let tooSmall = 0;
  for (let seed = FROM; seed < FROM + JOBS; seed += 1) {
    const job = randomJob(seed);
    const result = planJob(job);
    if (result.ok) {
      planned += 1;
      // As it comes out of the file.
      const exported = JSON.parse(JSON.stringify(jobPlanGeoJson(job, result.value.plan))) as Parameters<typeof faultsOf>[0];
      const faults = faultsOf(exported, [...job.text.replaceAll(' ', '')].length + job.drawings.length);
      if (faults.length > 0) {
        faulty += 1;
        process.stdout.write(`      job ${seed}, ${job.ships.length} ships, ${job.text}: ${faults.slice(0, 3).join('; ')}\n`);
      }
    } else if (result.problem.kind === 'too-small' || result.problem.kind === 'text') {
      // Nobody else could write it either: one ship alone is told the same.
      const alone = planJob({ ...job, ships: job.ships.slice(0, 1) });
      if (alone.ok) {
        unasked += 1;
        process.stdout.write(`      job ${seed}, ${job.ships.length} ships, ${job.text}: refused, ${result.problem.kind}, and one ship writes it\n`);
      } else tooSmall += 1;
    } else {
      unasked += 1;
      process.stdout.write(`      job ${seed}, ${job.ships.length} ships, ${job.text}: refused, ${result.problem.kind}\n`);
    }
    if ((seed + 1 - FROM) % TOLD_EVERY === 0) process.stdout.write(`      ${seed + 1 - FROM} of ${JOBS} jobs\n`);
  }
  return [
    reported('random jobs of one to three ships, planned and exported', `${planned} of ${JOBS}`),
    reported('letters too small for the ship, or a text that has no drawing, said so', String(tooSmall)),
    atMost('plans in which a checker of the export alone finds a fault', faulty, 0, '', 0),
    atMost('refused though one ship after another can write it', unasked, 0, '', 0),
  ];
}
