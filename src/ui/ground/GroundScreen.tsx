import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import '../fields/fields.css';
import './ground.css';
import { openGroundDesk } from '../../app/ground/ground-desk.ts';
import { joinFromHash } from '../../app/link/join-address.ts';
import type { Job } from '../../core/job/job.ts';
import { useApplication } from '../application-context.ts';
import { GroundContext } from './ground-context.ts';
import { GroundDeskView } from './GroundDeskView.tsx';
import { WithUnits } from '../fields/WithUnits.tsx';
import { JobWanted } from './JobWanted.tsx';
import { OtherVersion } from './OtherVersion.tsx';

/** The Ground screen of one job; or, where the job is not here yet, the ways to get it. */
export function GroundScreen({ jobId }: { readonly jobId: string }): VNode {
  const { jobs } = useApplication();
  const join = useMemo(() => joinFromHash(location.hash), [jobId]);
  if (jobs.state.value.kind === 'loading') {
    return (
      <p class="quiet" role="status">
        Opening the job
      </p>
    );
  }
  const job = jobs.find(jobId);
  return job === null ? (
    <JobWanted jobId={jobId} digest={join?.digest ?? null} />
  ) : (
    <OpenGround key={job.id} job={job} offeredAddress={join?.linkAddress ?? null} wantedDigest={join?.digest ?? null} />
  );
}

interface OpenGroundProps {
  readonly job: Job;
  /** Of the link, and of the job's version, by the join code; null without one. */
  readonly offeredAddress: string | null;
  readonly wantedDigest: string | null;
}

function OpenGround({ job, offeredAddress, wantedDigest }: OpenGroundProps): VNode {
  const { database, link, planner } = useApplication();
  const desk = useMemo(() => openGroundDesk(job, { database, link, planner }), [job]);
  useEffect(() => () => desk.end(), [desk]);
  return (
    <GroundContext.Provider value={desk}>
      {wantedDigest !== null && <OtherVersion job={job} wantedDigest={wantedDigest} />}
      <WithUnits>
        <GroundDeskView offeredAddress={offeredAddress} />
      </WithUnits>
    </GroundContext.Provider>
  );
}
