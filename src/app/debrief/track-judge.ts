import { logForSetup, logFromTrack, strangeSetup } from '../../core/debrief/imported-log.ts';
import { debriefShip, type ShipDebrief } from '../../core/debrief/ship-debrief.ts';
import type { ShipLog } from '../../core/debrief/ship-log.ts';
import type { Job } from '../../core/job/job.ts';
import type { FlightSetup } from '../../core/guidance/flight-setup.ts';
import { flightSetupFromJob } from '../../core/guidance/flight-setup-from-job.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { Plan } from '../../core/plan/plan.ts';
import type { ImportedTrack } from './imported-tracks.ts';

/** An imported track made ready to look at, and judged as a ship that nobody cued. */
export interface JudgedTrack {
  readonly log: ShipLog;
  readonly debrief: ShipDebrief;
}

interface Known extends JudgedTrack {
  readonly imported: ImportedTrack;
  readonly setupText: string;
}

/**
 * Judges imported tracks, each smoothed once for as long as it is seen from the same place: while a flight is opened its
 * job comes twice and its plan later, and a track of three hours takes a quarter of a second.
 */
export function createTrackJudge(): (imported: ImportedTrack, job: Job | null, plan: Plan | null) => JudgedTrack {
  const judged = new Map<string, Known>();
  return (imported, job, plan) => {
    const known = judged.get(imported.id);
    const setup = trackSetup(imported, job, plan);
    const setupText = JSON.stringify(setup);
    const sameTrack = known?.imported.track === imported.track ? known : null;
    if (sameTrack !== null && sameTrack.setupText === setupText && sameTrack.imported.seen === imported.seen) return sameTrack;
    const log = sameTrack === null ? logFromTrack(imported.track, setup) : logForSetup(sameTrack.log, imported.track, setup);
    const now: Known = { imported, setupText, log, debrief: debriefShip(log, null, imported.seen) };
    judged.set(imported.id, now);
    return now;
  };
}

/** Seen from the job's site; with the plan's strokes where the track is one of the job's ships. */
function trackSetup({ track, shipIndex }: ImportedTrack, job: Job | null, plan: Plan | null): FlightSetup {
  const air = job === null ? null : jobAir(job);
  const first = track.points[0];
  const isOurs = job !== null && plan !== null && shipIndex !== null && shipIndex < Math.min(job.ships.length, plan.ships.length);
  const setup = isOurs ? flightSetupFromJob(job, plan, shipIndex, { kind: 'first-smoke' }, first?.timeMilliseconds ?? 0) : null;
  if (setup?.ok) return setup.setup;
  // Without a job the track is looked at from where it begins.
  const site = air?.site ?? { latitudeDegrees: first?.latitudeDegrees ?? 0, longitudeDegrees: first?.longitudeDegrees ?? 0, elevationMetres: 0 };
  return strangeSetup(track.name, shipIndex ?? 0, site, air?.layerHeightMetres ?? 3000);
}
