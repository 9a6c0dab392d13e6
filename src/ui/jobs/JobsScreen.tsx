import type { VNode } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import './jobs.css';
import '../fields/fields.css';
import { createFirstTour } from '../../app/first-tour.ts';
import { createBackupDesk } from '../../app/backup/backup-desk.ts';
import { followShortcut } from '../../app/jobs/follow-shortcut.ts';
import { sortFiles } from '../../app/jobs/sort-files.ts';
import { useApplication } from '../application-context.ts';
import { FileButton } from '../fields/FileButton.tsx';
import { OpeningStored } from '../words/OpeningStored.tsx';
import { BackupPanel } from '../backup/BackupPanel.tsx';
import { TakeFold } from '../link/TakeFold.tsx';
import { About } from './About.tsx';
import { RescueExport } from './RescueExport.tsx';
import { DamagedJobs } from './DamagedJobs.tsx';
import { JobCard } from './JobCard.tsx';
import { LostJobs } from './LostJobs.tsx';
import { ShelfNoticeBar } from './ShelfNoticeBar.tsx';
import { SortiePanel } from './SortiePanel.tsx';
import { StorageStrip } from './StorageStrip.tsx';
import { TracksNotice } from './TracksNotice.tsx';
import { Tour, TourAgain } from './Tour.tsx';

/** The list of bookings, and how they come and go. Files may be dropped anywhere on it. */
export function JobsScreen(): VNode {
  const { database, jobs, go, given } = useApplication();
  const backup = useMemo(
    () =>
      createBackupDesk(
        database,
        () => Date.now(),
        () => jobs.refresh(),
      ),
    [database, jobs],
  );
  const tour = useMemo(() => createFirstTour(database), [database]);
  const [tracks, setTracks] = useState<readonly File[]>([]);
  const [dragging, setDragging] = useState(false);

  const takeFiles = async (files: readonly File[]): Promise<void> => {
    const sorted = await sortFiles(files);
    setTracks(sorted.tracks);
    for (const file of sorted.backups) await backup.restore(file);
    if (sorted.jobs.length > 0) await jobs.importFiles(sorted.jobs);
  };
  useEffect(
    () =>
      given.subscribe((files) => {
        if (files.length === 0) return;
        given.value = [];
        void takeFiles(files);
      }),
    [given],
  );
  useEffect(() => followShortcut(jobs, go), [jobs]);
  const create = async (): Promise<void> => {
    const job = await jobs.create();
    if (job !== null) go({ screen: 'draw', jobId: job.id });
  };

  return (
    <section
      class="jobs"
      data-dragging={dragging ? '' : undefined}
      onDragOver={(event) => {
        event.preventDefault();
        setDragging(true);
      }}
      onDragLeave={(event) => {
        if (event.currentTarget === event.target) setDragging(false);
      }}
      onDrop={(event) => {
        event.preventDefault();
        setDragging(false);
        const files = [...(event.dataTransfer?.files ?? [])];
        if (files.length > 0) void takeFiles(files);
      }}
    >
      <div class="jobs-head">
        <h1>Jobs</h1>
        <p class="jobs-what">
          <strong>Quillwind</strong> leads pilots who write words in the sky with smoke, from the booking to the debrief, also without a network.
        </p>
        <div class="row">
          <button type="button" class="main" onClick={() => void create()}>
            New job
          </button>
          <FileButton label="Job files to import" multiple accept=".json,.quillwind,.gpx,.igc,application/json" onFiles={(files) => void takeFiles(files)}>
            Import
          </FileButton>
          <TakeFold />
        </div>
      </div>
      <ShelfNoticeBar />
      {tracks.length > 0 && <TracksNotice tracks={tracks} onClose={() => setTracks([])} />}
      <LostJobs />
      {tour.asked.value && jobs.state.value.kind !== 'loading' ? (
        <>
          <Tour tour={tour} />
          <JobList />
          <SortiePanel />
          <StorageStrip />
          <BackupPanel desk={backup} />
          <TourAgain tour={tour} />
          <About />
        </>
      ) : (
        // Nothing stands below what is still to come, so that nothing jumps.
        <OpeningStored />
      )}
    </section>
  );
}

function JobList(): VNode {
  const { jobs } = useApplication();
  const state = jobs.state.value;
  switch (state.kind) {
    case 'loading':
      return <OpeningStored />;
    case 'failed':
      return (
        <div class="notice caution" role="alert">
          <h2>The stored jobs cannot be read</h2>
          <p>{state.reason} Nothing was deleted.</p>
          <div class="row">
            <button type="button" onClick={() => void jobs.refresh()}>
              Try again
            </button>
            <RescueExport />
          </div>
        </div>
      );
    case 'ready':
      return (
        <>
          <DamagedJobs damaged={state.damaged} />
          {state.jobs.length === 0 && state.damaged.length === 0 && (
            <div class="jobs-none">
              <p>No jobs are stored on this device.</p>
              <p class="quiet">Start one with New job, or import a job file: choose it, or drop it here.</p>
            </div>
          )}
          <div class="job-list">
            {state.jobs.map((job, index) => (
              <JobCard key={job.id} job={job} large={index === 0} />
            ))}
          </div>
        </>
      );
  }
}
