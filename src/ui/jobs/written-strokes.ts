import type { Job } from '../../core/job/job.ts';
import { jobLayout } from '../../core/plan/job-layout.ts';
import { turnRadiusMetres } from '../../core/paths/turn.ts';
import { radiansFromDegrees } from '../../core/units/angle.ts';
import { metresPerSecondFromKnots } from '../../core/units/quantity.ts';
import { type PlanePath, planePathFromLetter } from '../drawing/plane-path.ts';

/**
 * The strokes of a job's text as the crowd will read them, in the letter frame; none when it cannot be laid out. Each
 * letter in its fewest strokes, which is what a plan mostly chooses, since no plan is made for a list.
 */
export function writtenStrokes(job: Job): readonly PlanePath[] {
  const lead = job.ships[0];
  if (lead === undefined) return [];
  const setting = jobLayout(job, turnRadiusMetres(metresPerSecondFromKnots(lead.trueAirspeedKnots), radiansFromDegrees(lead.writingBankDegrees)));
  if (!setting.ok) return [];
  return setting.layout.letters.flatMap(({ alternatives }) => {
    const [fewest] = alternatives.toSorted((one, other) => one.strokes.length - other.strokes.length);
    return (fewest?.strokes ?? []).map(({ path }) => planePathFromLetter(path));
  });
}
