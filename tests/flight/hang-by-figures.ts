import { jobAir } from '../../src/core/job/job-air.ts';
import { angleBetween, wordPose, wordSeen } from './crowd-eye.ts';
import { flySortie, type SortieReport } from './fly-sortie.ts';
import { driftAtOf } from './job-flight.ts';
import { plannedInk } from './planned-ink.ts';
import { formationJob, sortieOf, type SortieHangs } from './ships-from-anywhere.ts';

/** A word by three ships as the crowd sees it at the last smoke. */
export interface FormationSeen extends SortieReport {
  readonly leanDegrees: number;
  readonly bearingOffDegrees: number;
  /** Whether all ships hung the word in one place. */
  readonly alike: boolean;
}

/** Time for the lead to find the wind and for all to come to their circles anew. */
const DATUM_SECONDS = 480;

/** Flies a word by three ships from anywhere, in a wind up to 20 kt off the forecast: as briefed, by the link, or by figures on the radio. */
export function flyByFigures(word: string, seed: number, hangs: SortieHangs | null): FormationSeen {
  const made = formationJob(word, 3);
  if (made === null) throw new Error(`${word}: no plan for three`);
  let honest = sortieOf(seed);
  for (let next = seed + 1000; honest.ships.length < 3 || honest.fault !== null; next += 1000) honest = sortieOf(next);
  const report = flySortie({
    ...honest,
    ...made,
    ships: honest.ships.slice(0, made.plan.ships.length),
    datumSeconds: Math.max(DATUM_SECONDS, honest.datumSeconds),
    ...(hangs === null ? {} : { hangs }),
  });
  const trails = report.trails.flat().filter((trail) => trail.length > 10);
  const lastSeconds = Math.min(report.driftTrack.at(-1)!.atSeconds, Math.max(...trails.map((trail) => trail.at(-1)!.atSeconds)));
  const pose = wordPose(trails, plannedInk(made.plan));
  const seen = wordSeen(pose, driftAtOf(report.driftTrack), lastSeconds, jobAir(made.job).layerAboveSiteMetres);
  const places = report.states.map((state) => (state.phase === 'idle' ? '' : `${state.flight.movedEastMetres} ${state.flight.movedNorthMetres}`));
  return {
    ...report,
    leanDegrees: seen.leanDegrees,
    bearingOffDegrees: angleBetween(seen.bearingDegrees, made.job.facingDegreesTrue),
    alike: new Set(places).size === 1,
  };
}
