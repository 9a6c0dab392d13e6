import { MissingSheet } from './MissingSheet.tsx';
import { missingFirstWords } from '../../core/job/not-entered.ts';
import { DemoMark } from '../drawing/DemoMark.tsx';
import './brief.css';
import '../drawing/pictures.css';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { readSmokeCalibration } from '../../app/smoke-settings.ts';
import type { Job } from '../../core/job/job.ts';
import { idleShipsWords } from '../../core/plan/idle-ships.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { useApplication } from '../application-context.ts';
import { JoinFold } from '../link/JoinFold.tsx';
import { type PlanningProblem, planningProblem } from '../../app/planning-problem.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { type Briefing, briefingOf } from './briefing.ts';
import { ClientSheet } from './ClientSheet.tsx';
import { ControllerNotice } from './ControllerNotice.tsx';
import { DaySheet } from './DaySheet.tsx';
import { KneeboardCard } from './KneeboardCard.tsx';
import { useUnitText } from '../fields/units-context.ts';

type Made =
  | { readonly kind: 'planning' }
  | { readonly kind: 'made'; readonly briefing: Briefing }
  | { readonly kind: 'failed'; readonly words: (units: UnitText) => PlanningProblem };

const PAGES = [
  { kind: 'cards', word: 'Kneeboard cards' },
  { kind: 'controller', word: 'Controller' },
  { kind: 'client', word: 'Client' },
  { kind: 'day', word: 'Day and radio' },
] as const;

const SHEET_TITLES = { cards: 'Kneeboard card', controller: 'Notice for the controller', client: 'Sheet for the client', day: 'Day sheet' } as const;

/** The brief of a job that was read: planned off the page, then laid out as pages for the printer. */
export function OpenBrief({ job }: { readonly job: Job }): VNode {
  const { database, planner } = useApplication();
  const made = useSignal<Made>({ kind: 'planning' });
  const page = useSignal<(typeof PAGES)[number]['kind']>('cards');
  const night = useSignal(false);
  useEffect(() => {
    const stop = new AbortController();
    Promise.all([
      planner.plan(job, () => {}, stop.signal),
      // What cannot be read counts as never measured: the published values then hold.
      readSmokeCalibration(database).catch(() => null),
    ]).then(
      ([result, calibration]) => {
        made.value = result.ok
          ? { kind: 'made', briefing: briefingOf(result.value, calibration) }
          : // Worded where it is shown: which units are wished is known later than a plan that was kept.
            { kind: 'failed', words: (units) => planningProblem(result.problem, job, units) };
      },
      (error: unknown) => {
        if (!stop.signal.aborted)
          made.value = {
            kind: 'failed',
            words: () => ({ title: error instanceof Error ? error.message : 'The planner broke off.', remedies: ['Open this screen again.'] }),
          };
      },
    );
    return () => stop.abort();
  }, [job]);
  useEffect(() => {
    // The name under which a browser prints to a file.
    document.title = `${job.name} \u2013 ${SHEET_TITLES[page.value]}`;
  }, [job.name, page.value]);
  return (
    <section class="brief">
      <header class="brief-head">
        <h1>Brief {writtenWords(job)}</h1>
        <p class="quiet">{job.name}</p>
        <DemoMark job={job} />
        <div class="brief-choices" role="group" aria-label="Pages">
          {PAGES.map(({ kind, word }) => (
            <button key={kind} type="button" aria-pressed={page.value === kind} onClick={() => (page.value = kind)}>
              {word}
            </button>
          ))}
        </div>
        <div class="brief-choices">
          {page.value === 'cards' && (
            <label class="brief-night">
              <input type="checkbox" checked={night.value} onChange={(event) => (night.value = event.currentTarget.checked)} /> white on black, for a dark
              cockpit
            </label>
          )}
          <button type="button" class="main" disabled={made.value.kind !== 'made' && missingFirstWords(job) === null} onClick={() => print()}>
            Print
          </button>
          <JoinFold job={job} />
        </div>
      </header>
      <BriefPages job={job} made={made.value} page={page.value} night={night.value} />
    </section>
  );
}

function BriefPages({
  job,
  made,
  page,
  night,
}: {
  readonly job: Job;
  readonly made: Made;
  readonly page: (typeof PAGES)[number]['kind'];
  readonly night: boolean;
}): VNode {
  const units = useUnitText();
  if (missingFirstWords(job) !== null) return <MissingSheet job={job} title={SHEET_TITLES[page]} />;
  if (made.kind === 'planning') {
    return (
      <p class="quiet" role="status">
        Planning
      </p>
    );
  }
  if (made.kind === 'failed') {
    const { title, remedies } = made.words(units);
    return (
      <div class="notice caution" role="alert">
        <h2>{title}</h2>
        <ul>
          {remedies.map((remedy) => (
            <li key={remedy}>{remedy}</li>
          ))}
        </ul>
        <a class="button" href="#/jobs">
          To the jobs
        </a>
      </div>
    );
  }
  const { briefing } = made;
  if (page === 'controller') return <ControllerNotice briefing={briefing} />;
  if (page === 'client') return <ClientSheet briefing={briefing} />;
  if (page === 'day') return <DaySheet briefing={briefing} />;
  return (
    <>
      {idleShipsWords(briefing.planned.job, briefing.planned.plan) !== '' && (
        <p class="notice caution">{idleShipsWords(briefing.planned.job, briefing.planned.plan)}</p>
      )}
      {briefing.planned.plan.ships.map((ship) => (
        <KneeboardCard key={ship.shipIndex} briefing={briefing} ship={ship} night={night} />
      ))}
    </>
  );
}
