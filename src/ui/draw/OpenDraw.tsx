import './draw.css';
import './checks.css';
import './day.css';
import '../map/map.css';
import '../sky/sky.css';
import '../fields/fields.css';
import '../drawing/pictures.css';
import '../drawing/player.css';
import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { VNode } from 'preact';
import { useContext, useEffect, useMemo } from 'preact/hooks';
import type { SmokeCalibration } from '../../core/sky/smoke-calibration.ts';
import type { Job } from '../../core/job/job.ts';
import { missingFirstWords } from '../../core/job/not-entered.ts';
import { jobFromValue } from '../../core/job/parse-job.ts';
import type { PilotUp } from '../../app/draw/desk.ts';
import { DeskContext } from './desk-context.ts';
import type { Pane, PlanDesk } from '../../app/draw/desk.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { createJobEditor, type JobEditor } from '../../app/draw/job-editor.ts';
import { DrawDeskView } from './DrawDeskView.tsx';
import { keepSpare } from '../../app/jobs/spare-job.ts';
import { keepUnsavedOf } from '../../app/draw/keep-unsaved.ts';
import type { JobVersions } from '../../app/draw/job-versions.ts';
import { createOverlayDesk, type OverlayStore } from '../../app/draw/overlay-desk.ts';
import { createPlayer, PLAN_RATES, type PlaySpan } from '../../app/player.ts';
import { plannedChecks } from '../../core/checks/planned-checks.ts';
import { readingOf } from '../../core/sky/reading-of.ts';
import { createOtherPlans } from '../../app/draw/other-plans.ts';
import { settledSignal } from '../../app/draw/settled-signal.ts';
import type { RulesChoice } from '../../app/draw/rules-choice.ts';
import { planningProblem } from '../../app/planning-problem.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import { UnitsContext } from '../fields/units-context.ts';
import type { KeptShelf } from '../../app/kept/kept-things.ts';
import type { Planner } from '../../app/planner.ts';
import { createPlanningLoop, isBlank } from '../../app/draw/planning-loop.ts';

export interface OpenPlanProps {
  readonly stored: Job;
  /** Stores the job that was made from `base` durably, and resolves with it as stored; rejects with an Error a person understands. */
  readonly save: (job: Job, base: Job) => Promise<Job>;
  /** The job as it is stored now, whichever tab stored it. */
  readonly latest: ReadonlySignal<Job | null>;
  readonly planner: Planner;
  readonly overlayStore: OverlayStore;
  /** How fast smoke spread when it was last measured; null when it never was. */
  readonly readCalibration: () => Promise<SmokeCalibration | null>;
  readonly openVersions: (editor: JobEditor) => JobVersions;
  readonly openKept: () => KeptShelf;
  readonly openRules: () => RulesChoice;
}

/** The Draw screen of a job that was read: sets up what its parts share, for as long as it is shown. */
export function OpenDraw(props: OpenPlanProps): VNode {
  const shelf = useContext(UnitsContext);
  const opened = useMemo(() => openDesk(props, () => unitText(shelf?.units.peek())), []);
  useEffect(() => {
    const settledJob = opened.desk.settled;
    return effect(() => keepSpare(() => localStorage, settledJob.value?.job ?? props.stored, Date.now()));
  }, [opened]);
  useEffect(() => {
    const { editor, player } = opened.desk;
    const onHidden = (): void => {
      if (document.visibilityState !== 'hidden') return;
      player.pause();
      void editor.flush();
    };
    document.addEventListener('visibilitychange', onHidden);
    const stopKeeping = keepUnsavedOf(editor);
    const stopFollowing = effect(() => {
      if (props.latest.value === null) return;
      editor.takeIn(props.latest.value);
      void opened.desk.versions.refresh();
    });
    return () => {
      document.removeEventListener('visibilitychange', onHidden);
      stopKeeping();
      stopFollowing();
      opened.close();
    };
  }, [opened]);
  return (
    <DeskContext.Provider value={opened.desk}>
      <DrawDeskView />
    </DeskContext.Provider>
  );
}

const after = (milliseconds: number, call: () => void): (() => void) => {
  const timer = setTimeout(call, milliseconds);
  return () => clearTimeout(timer);
};

function openDesk(
  { stored, save, planner, overlayStore, readCalibration, openVersions, openKept, openRules }: OpenPlanProps,
  units: () => UnitText,
): {
  readonly desk: PlanDesk;
  readonly close: () => void;
} {
  const editor = createJobEditor(stored, {
    save,
    fault(job) {
      const reading = jobFromValue(job);
      return reading.ok ? null : reading.faults.map(({ path, message }) => `${path} ${message}`).join('; ');
    },
    nowMilliseconds: () => performance.now(),
    after,
  });
  const loop = createPlanningLoop(editor.job, { planner, after, words: (problem, job) => planningProblem(problem, job, units()) });
  const plan = (): PlannedJob['plan'] | undefined => loop.planned.peek()?.plan;
  const player = createPlayer({
    span: () => planSpan(plan()),
    rates: PLAN_RATES,
    rate: 20,
    stopsSeconds: () => (plan()?.ships ?? []).flatMap(({ legs }) => legs.map(({ endSeconds }) => endSeconds)).sort((a, b) => a - b),
    reducedMotion: () => matchMedia('(prefers-reduced-motion: reduce)').matches,
  });
  const conditions = computed(() => editor.job.value.conditions);
  const { settled, dispose } = settledSignal(loop.planned, after);
  // A job without a plan may have one with another choice, which is then worth the most.
  const standing = computed(() => (loop.problem.value === null ? (settled.value?.job ?? null) : isBlank(editor.job.value) ? null : editor.job.value));
  const other = createOtherPlans(standing, loop.busyFraction, planner);
  const overlay = createOverlayDesk(overlayStore);
  const rules = openRules();
  const calibration = signal<SmokeCalibration | null>(null);
  readCalibration().then(
    (read) => (calibration.value = read),
    // Without it the published values hold, which is what the screen then says.
    () => {},
  );
  const sky = computed(() => (settled.value === null || missingFirstWords(settled.value.job) !== null ? null : readingOf(settled.value, calibration.value)));
  return {
    desk: {
      editor,
      planned: loop.planned,
      problem: loop.problem,
      awaited: computed(() => loop.planned.value === null && loop.problem.value === null),
      busyFraction: loop.busyFraction,
      otherPlans: other.plans,
      settled,
      sky,
      checks: computed(() =>
        settled.value === null || sky.value === null || missingFirstWords(settled.value.job) !== null
          ? null
          : plannedChecks(settled.value, sky.value, overlay.overlay.value, rules.rules.value),
      ),
      pane: signal<Pane>('flown'),
      player,
      keptPlan: signal<PlannedJob | null>(null),
      conditions,
      calibration,
      overlay,
      versions: openVersions(editor),
      kept: openKept(),
      rules,
      setConditions: (next) => editor.edit('visibility and clouds', (job) => ({ ...job, conditions: next })),
      pilotUp: signal<PilotUp>('north'),
      shipIndex: signal(0),
    },
    close() {
      dispose();
      other.dispose();
      player.dispose();
      loop.dispose();
      void editor.flush();
    },
  };
}

function planSpan(plan: PlannedJob['plan'] | undefined): PlaySpan | null {
  return plan === undefined ? null : { fromSeconds: 0, toSeconds: plan.durationSeconds };
}
