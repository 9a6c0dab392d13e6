import { logFromTrack, strangeSetup } from '../../core/debrief/imported-log.ts';
import type { ShipLog } from '../../core/debrief/ship-log.ts';
import type { Job } from '../../core/job/job.ts';
import { flightSetupFromJob } from '../../core/guidance/flight-setup-from-job.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { Plan } from '../../core/plan/plan.ts';
import type { ImportedTrack } from './imported-tracks.ts';

interface Known {
  readonly imported: ImportedTrack;
  readonly job: Job | null;
  readonly plan: Plan | null;
  readonly log: ShipLog;
}

/** Logs of imported tracks, each smoothed once for as long as the track, its ship, the job and the plan stay the same. */
export function createTrackLogs(): (imported: ImportedTrack, job: Job | null, plan: Plan | null) => ShipLog {
  const logs = new Map<string, Known>();
  return (imported, job, plan) => {
    const known = logs.get(imported.id);
    if (
      known !== undefined &&
      known.imported.track === imported.track &&
      known.imported.shipIndex === imported.shipIndex &&
      known.job === job &&
      known.plan === plan
    )
      return known.log;
    const log = trackLog(imported, job, plan);
    logs.set(imported.id, { imported, job, plan, log });
    return log;
  };
}

/** Seen from the job's site; with the plan's strokes where the track is one of the job's ships. */
function trackLog({ track, shipIndex }: ImportedTrack, job: Job | null, plan: Plan | null): ShipLog {
  const air = job === null ? null : jobAir(job);
  const first = track.points[0];
  const isOurs = job !== null && plan !== null && shipIndex !== null && shipIndex < Math.min(job.ships.length, plan.ships.length);
  const setup = isOurs ? flightSetupFromJob(job, plan, shipIndex, { kind: 'first-smoke' }, first?.timeMilliseconds ?? 0) : null;
  if (setup?.ok) return logFromTrack(track, setup.setup);
  // Without a job the track is looked at from where it begins.
  const site = air?.site ?? { latitudeDegrees: first?.latitudeDegrees ?? 0, longitudeDegrees: first?.longitudeDegrees ?? 0, elevationMetres: 0 };
  return logFromTrack(track, strangeSetup(track.name, shipIndex ?? 0, site, air?.layerHeightMetres ?? 3000));
}
