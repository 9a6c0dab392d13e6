import { jobText } from '../../core/job/job-text.ts';
import { readsValue } from '../words/reads.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { readLogbook } from '../../app/debrief/logbook-shelf.ts';
import { nextPicture } from '../../app/debrief/next-picture.ts';
import { type Account, accountOf } from '../../core/days/account.ts';
import { createPhotographDesk, type PhotographDesk } from '../../app/photographs/photograph-desk.ts';
import type { Job } from '../../core/job/job.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { crowdMoment } from './crowd-moment.ts';
import { DebriefPhotographs } from './DebriefPhotographs.tsx';
import type { PhotographProof } from './closing/ReportPhotograph.tsx';
import { createBackupDesk } from '../../app/backup/backup-desk.ts';
import { jobAir } from '../../core/job/job-air.ts';
import { readingOfTrails } from '../../core/sky/reading-of.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { calibratedSmoke } from '../../core/sky/smoke-calibration.ts';
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
import { Exports } from './closing/Exports.tsx';
import type { FlightSpan } from './flight-player.ts';
import { FlightFigures } from './FlightFigures.tsx';
import { type FlownScene, flownScene, sceneTrails } from './flown-scene.ts';
import { FlownView } from './FlownView.tsx';
import { Lessons } from './Lessons.tsx';
import { Logbook } from './closing/Logbook.tsx';
import { PlayerBar } from './PlayerBar.tsx';
import { LetterTable, StrokeTable } from './ScoreTables.tsx';
import { SmokeMarks } from './SmokeMarks.tsx';
import { TimeLine } from './TimeLine.tsx';
import { againstTrack } from '../../core/debrief/photographed-letter.ts';
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

/** Smoke is looked at for this long after the last of it at most. */
const STANDING_MILLISECONDS = 30 * 60_000;
/** Opened so long after the last smoke, on the finished word. */
const OPENED_MILLISECONDS = 20_000;

const FlightCharts = lazily(async () => (await import('./FlightCharts.tsx')).FlightCharts, 'Charts');

/** The whole of a debrief: one flight in pictures, in time, in figures, and what it teaches. */
export function DebriefDeskView({ onSpan }: { readonly onSpan: (span: FlightSpan | null) => void }): VNode {
  const units = useUnitText();
  const { desk, player } = useDebrief();
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
  /** What the line of time holds: from the first smoke to the end of reading, or the whole flight. */
  const stretch = useSignal<'word' | 'flight'>('word');
  const shipKey = useSignal<string | null>(null);
  const job = desk.job.value;
  const ships = desk.ships.value;
  const scene = useMemo(() => flownScene(ships), [ships]);
  const ship = ships.find(({ key }) => key === shipKey.value) ?? ships[0];
  const kilogramsPerMetre = useMemo(() => oilPerMetre(ships), [ships]);
  const trails = useMemo(() => (scene === null ? [] : sceneTrails(scene, kilogramsPerMetre)), [scene, kilogramsPerMetre]);
  const smoke = calibratedSmoke(desk.calibration.value);
  const window = useMemo((): ReadingWindow | null => {
    if (job === null || trails.length === 0) return null;
    const air = jobAir(job);
    const found = ships[0]?.debrief?.flight.windFound ?? air.wind;
    const laid = trails.filter(({ letterIndex }) => letterIndex >= 0);
    return readingOfTrails(laid, jobText(job), { ...air, wind: found }, smoke);
  }, [job, trails, ships, smoke.likely.air.horizontalSquareMetresPerSecond]);
  const span = useMemo((): FlightSpan | null => {
    if (scene === null) return null;
    const { firstSmokeMilliseconds: first, lastSmokeMilliseconds: last } = scene;
    if (first === null || last === null || stretch.value === 'flight') {
      return { fromMilliseconds: scene.fromMilliseconds, toMilliseconds: Math.max(scene.toMilliseconds, (last ?? 0) + OPENED_MILLISECONDS) };
    }
    const readsMilliseconds = window === null ? 0 : first + 1000 * window.until.likelySeconds;
    return { fromMilliseconds: first, toMilliseconds: Math.max(last + OPENED_MILLISECONDS, Math.min(readsMilliseconds, last + STANDING_MILLISECONDS)) };
  }, [scene, window, stretch.value]);
  useEffect(() => {
    onSpan(span);
    if (span === null || scene === null) return;
    // Opened on the finished word; a moment chosen before stays where it was.
    const at = player.atMilliseconds.peek();
    player.seekMilliseconds(
      at >= span.fromMilliseconds && at <= span.toMilliseconds
        ? at
        : scene.lastSmokeMilliseconds === null
          ? scene.toMilliseconds
          : scene.lastSmokeMilliseconds + OPENED_MILLISECONDS,
    );
  }, [span]);
  const stored = job === null ? null : jobs.find(job.id);
  const account = useSignal<Account | null>(null);
  const paper = useSignal<'report' | 'account'>('report');
  const printAccount = async (): Promise<void> => {
    if (stored === null) return;
    const { lines } = await readLogbook(database);
    account.value = accountOf(
      stored,
      lines.flatMap(({ entry }) => (entry === null ? [] : [entry])),
    );
    paper.value = 'account';
    // Laid out before the printer is asked; the report is what prints by itself.
    await nextPicture();
    print();
    paper.value = 'report';
  };
  const photographs = useMemo(() => (job === null || scene === null ? null : photographDesk(database, job, scene, trails)), [database, job, scene, trails]);
  useEffect(() => () => photographs?.dispose(), [photographs]);
  const proof = photographs === null ? null : latestProof(photographs);
  const debriefs = ships.flatMap(({ debrief }) => debrief ?? []);
  const pictured = photographs?.photographs.value.findLast(({ seen }) => seen !== null)?.seen ?? [];
  const otherwise = debriefs.flatMap(({ letterScores }) =>
    letterScores.flatMap(({ letterIndex, character, coverage }) => {
      const seen = pictured.find((letter) => letter.letterIndex === letterIndex);
      return seen === undefined || againstTrack(seen, coverage) === 'as flown' ? [] : [character];
    }),
  );
  const opened = desk.state.value;
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
          {verdictWords(writtenWords(job), debriefs, window, units)}
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
              <LetterTable ship={ship} observed={desk.observed.value} photographs={photographs?.photographs.value ?? []} windows={window?.letters ?? []} />
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
          <Fold title="Other ships and recorders" open={desk.tracks.value.length > 0 || ships.length === 0}>
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
        <ClientReport scene={scene} trails={trails} job={job} window={window} observed={desk.observed.value} across={across} proof={proof} />
      )}
      {stored !== null && account.value !== null && <AccountSheet job={stored} account={account.value} />}
    </div>
  );
}

/** The photographs of a job, measured against what was flown: the drift found, as one steady wind up to each picture. */
function photographDesk(database: Parameters<typeof createPhotographDesk>[0], job: Job, scene: FlownScene, trails: readonly Trail[]): PhotographDesk {
  const air = jobAir(job);
  return createPhotographDesk(
    database,
    {
      jobId: job.id,
      site: air.site,
      layerAboveSiteMetres: air.layerAboveSiteMetres,
      ...jobText(job),
      wordAt(atMilliseconds) {
        const moment = crowdMoment(scene, air, calibratedSmoke(null).likely, atMilliseconds);
        const written = scene.firstSmokeMilliseconds !== null && atMilliseconds > scene.firstSmokeMilliseconds;
        return written ? { trails, atSeconds: moment.atSeconds, wind: moment.wind } : null;
      },
    },
    () => Date.now(),
  );
}

/** The photograph that was laid, for the client's report: the last of several. */
function latestProof(desk: PhotographDesk): PhotographProof | null {
  const laid = desk.laid.value;
  const last = desk.photographs.value.findLast(({ id }) => laid.has(id));
  const measured = last === undefined ? undefined : laid.get(last.id);
  return last === undefined || measured === undefined ? null : { photograph: last, rectified: measured.answer.rectified };
}

interface OilUser {
  readonly log: { readonly setup: { readonly oilKilogramsPerSecond: number; readonly trueAirspeedMetresPerSecond: number } };
}

function oilPerMetre(ships: readonly OilUser[]): number {
  const setup = ships.find(({ log }) => log.setup.oilKilogramsPerSecond > 0)?.log.setup;
  // A common burner at a common speed, for tracks that say nothing of oil: 45 lb a minute at 104 kt.
  return setup === undefined ? 0.0063 : setup.oilKilogramsPerSecond / setup.trueAirspeedMetresPerSecond;
}
