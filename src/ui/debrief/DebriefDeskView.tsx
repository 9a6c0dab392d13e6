import { jobText } from '../../core/job/job-text.ts';
import { readsValue } from '../words/reads-text.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { writtenWords } from '../../core/job/written-words.ts';
import { DebriefPhotographs } from './DebriefPhotographs.tsx';
import { createBackupDesk } from '../../app/backup/backup-desk.ts';
import { useApplication } from '../application-context.ts';
import { BackupPanel } from '../backup/BackupPanel.tsx';
import { ChoiceField } from '../fields/ChoiceField.tsx';
import { Fold } from '../fields/Fold.tsx';
import { AccountSheet } from './closing/AccountSheet.tsx';
import { ClientReport } from './closing/ClientReport.tsx';
import { Closing } from './closing/Closing.tsx';
import { CrowdView } from './CrowdView.tsx';
import { CuesShown } from './CuesShown.tsx';
import { type DebriefPane, useDebrief } from './debrief-context.ts';
import { DeskHead } from './DeskHead.tsx';
import { DeskNotices } from './DeskNotices.tsx';
import { usePrintedAccount } from './closing/use-printed-account.ts';
import { Exports } from './closing/Exports.tsx';
import type { FlightSpan } from './flight-player.ts';
import { FlightFigures } from './FlightFigures.tsx';
import { latestProof, photographsOfFlight } from './photographs-of-flight.ts';
import { useFlownWord } from './use-flown-word.ts';
import { type Stretch, useSpan } from './use-span.ts';
import { FlownView } from './FlownView.tsx';
import { Lessons } from './Lessons.tsx';
import { Logbook } from './closing/Logbook.tsx';
import { PlayerBar } from './PlayerBar.tsx';
import { LetterTable, StrokeTable } from './ScoreTables.tsx';
import { SmokeMarks } from './SmokeMarks.tsx';
import { TimeLine } from './TimeLine.tsx';
import { lettersSeenOtherwise } from '../../core/debrief/photographed-letter.ts';
import { verdictWords } from './verdict-words.ts';
import { lazily } from '../lazily.tsx';
import { TrackList } from './TrackList.tsx';
import { WindToJob } from './WindToJob.tsx';
import { useUnitText } from '../fields/units-context.ts';

const PANES: readonly { readonly value: DebriefPane; readonly label: string; readonly short: string }[] = [
  { value: 'below', label: 'From below', short: 'Below' },
  { value: 'above', label: 'From above', short: 'Above' },
  { value: 'ground', label: 'Over the ground', short: 'Ground' },
  { value: 'crowd', label: 'As the crowd saw it', short: 'Crowd' },
];

const STRETCHES = [
  { value: 'word', label: 'First smoke to the end of reading', short: 'Reading' },
  { value: 'flight', label: 'The whole flight', short: 'Flight' },
] as const;

const FlightCharts = lazily(async () => (await import('./FlightCharts.tsx')).FlightCharts, 'Charts');

/** The whole of a debrief: one flight in pictures, in time, in figures, and what it teaches. */
export function DebriefDeskView({ onSpan }: { readonly onSpan: (span: FlightSpan | null) => void }): VNode {
  const units = useUnitText();
  const { desk } = useDebrief();
  const { database, jobs } = useApplication();
  const backup = useMemo(
    () =>
      createBackupDesk(
        database,
        () => Date.now(),
        () => jobs.refresh(),
      ),
    [database, jobs],
  );
  const pane = useSignal<DebriefPane>('below');
  const stretch = useSignal<Stretch>('word');
  const shipKey = useSignal<string | null>(null);
  const job = desk.job.value;
  const ships = desk.ships.value;
  const { scene, trails, written, laid, window } = useFlownWord(desk);
  const span = useSpan(scene, laid, stretch.value, onSpan);
  const ship = ships.find(({ key }) => key === shipKey.value) ?? ships[0];
  const stored = job === null ? null : jobs.find(job.id);
  const { account, paper, print: printAccount } = usePrintedAccount(stored);
  const photographs = useMemo(
    () => (job === null || scene === null ? null : photographsOfFlight(database, job, scene, trails)),
    [database, job, scene, trails],
  );
  useEffect(() => () => photographs?.dispose(), [photographs]);
  const proof = photographs === null ? null : latestProof(photographs);
  const debriefs = ships.flatMap(({ debrief }) => debrief ?? []);
  const otherwise = lettersSeenOtherwise(
    debriefs.flatMap(({ letterScores }) => letterScores),
    photographs?.photographs.value.findLast(({ seen }) => seen !== null)?.seen ?? [],
  );
  const opened = desk.state.value;
  // Opens for what is imported, and stays when it is removed again.
  const tracksOpen = useRef(false);
  tracksOpen.current ||= desk.tracks.value.length > 0 || ships.length === 0;
  const across = opened.kind === 'open' && opened.flight.kind !== 'flight' ? opened.flight.kind.toUpperCase() : '';
  const lost = opened.kind === 'open' ? opened.flown.lost : [];
  const timeZone = job?.site.timeZone ?? 'UTC';
  const facingRadians = job === null ? 0 : jobText(job).facingRadians;
  return (
    <div
      class="debrief"
      data-state={opened.kind}
      data-paper={paper.value}
      data-reads={desk.plannedReading.value === null ? undefined : readsValue(desk.plannedReading.value)}
      data-replayed={ships[0]?.debrief === null || ships[0] === undefined ? 'no' : 'yes'}
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault();
        const files = [...(event.dataTransfer?.files ?? [])];
        if (files.length > 0) void desk.importTracks(files);
      }}
    >
      <DeskHead />
      {debriefs.length > 0 && job !== null && (
        <p class="debrief-verdict" data-figure="verdict">
          {verdictWords(writtenWords(job), written, debriefs, window, units)}
        </p>
      )}
      {otherwise.length > 0 && (
        <p class="debrief-photographed" data-figure="photographed">
          A photograph does not show {otherwise.join(', ')} as the track has {otherwise.length === 1 ? 'it' : 'them'}: see Letters.
        </p>
      )}
      <DeskNotices />
      {scene !== null && span !== null && (
        <section class="debrief-pictures">
          <ChoiceField label="Shown" value={pane.value} choices={PANES} onChange={(next) => (pane.value = next)} />
          {pane.value === 'crowd' ? (
            job === null ? (
              <p class="quiet">The job of this flight is no longer stored, so where the crowd stood is not known.</p>
            ) : (
              <CrowdView scene={scene} trails={trails} job={job} heldMilliseconds={null} />
            )
          ) : (
            <FlownView
              scene={scene}
              from={pane.value}
              facingRadians={facingRadians}
              wind={ships[0]?.debrief?.flight.windFound ?? null}
              description={`${job?.text ?? 'The flight'} as it was flown, ${PANES.find(({ value }) => value === pane.value)?.label.toLowerCase() ?? ''}`}
            />
          )}
          <PlayerBar span={span} timeZone={timeZone}>
            <TimeLine scene={scene} span={span} observed={desk.observed.value} lost={lost} />
          </PlayerBar>
          <ChoiceField label="Time" value={stretch.value} choices={STRETCHES} onChange={(next) => (stretch.value = next)} />
          {ship !== undefined && ship.debrief !== null && <FlightCharts ship={ship} span={span} timeZone={timeZone} />}
        </section>
      )}
      <BackupPanel desk={backup} dueOnly />
      {scene !== null && ship !== undefined && (
        <div class="debrief-columns">
          <div class="debrief-column">
            {ships.length > 1 && (
              <ChoiceField
                label="Ship"
                value={ship.key}
                choices={ships.map(({ key, name }) => ({ value: key, label: name }))}
                onChange={(next) => (shipKey.value = next)}
              />
            )}
            {ship.kind === 'flight' && <CuesShown />}
            <section>
              <h2>The flight</h2>
              <FlightFigures
                ship={ship}
                ships={ships}
                scene={scene}
                separationFeet={job?.options.separationFeet ?? 984}
                timeZone={timeZone}
                flownReading={window}
                plannedReading={desk.plannedReading.value}
              />
              <WindToJob ship={ship} jobId={job?.id ?? null} />
            </section>
            <section>
              <h2>Lessons</h2>
              <Lessons />
            </section>
          </div>
          <div class="debrief-column">
            <section>
              <h2>Letters</h2>
              <LetterTable
                ship={ship}
                observed={desk.observed.value}
                photographs={photographs?.photographs.value ?? []}
                windows={(laid?.letters ?? []).filter(({ letterIndex }) => written.whole.has(letterIndex))}
              />
            </section>
            <section>
              <h2>Strokes</h2>
              <StrokeTable ship={ship} />
            </section>
          </div>
        </div>
      )}
      {desk.flights.value.kind !== 'loading' && opened.kind !== 'opening' && (
        <div class="debrief-folds">
          {ship !== undefined && (
            <Fold title="Mark the smoke by hand" open={ship.seen.length > 0}>
              <SmokeMarks ship={ship} timeZone={timeZone} />
            </Fold>
          )}
          <Fold title="Other ships and recorders" open={tracksOpen.current}>
            <TrackList job={job} />
          </Fold>
          {photographs !== null && (
            <Fold title="Photographs" open={false}>
              <DebriefPhotographs desk={photographs} timeZone={timeZone} name={job === null ? 'word' : writtenWords(job)} />
            </Fold>
          )}
          <Fold title="Send to the client and others" open={false}>
            <Exports scene={scene} trails={trails} job={job} />
          </Fold>
          <Fold title="Close the job" open={false}>
            <Closing job={stored} trails={trails} across={across} onPrintAccount={() => void printAccount()} />
          </Fold>
          <Fold title="Logbook" open={false}>
            <Logbook timeZone={timeZone} />
          </Fold>
        </div>
      )}
      {scene !== null && job !== null && (
        <ClientReport scene={scene} trails={trails} job={job} written={written} window={window} observed={desk.observed.value} across={across} proof={proof} />
      )}
      {stored !== null && account.value !== null && <AccountSheet job={stored} account={account.value} />}
    </div>
  );
}
