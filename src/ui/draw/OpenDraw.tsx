import './draw.css';
import './checks.css';
import './day.css';
import '../map/map.css';
import '../sky/sky.css';
import '../fields/fields.css';
import '../drawing/pictures.css';
import '../drawing/player.css';
import { computed, signal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { calibratedSmoke, type SmokeCalibration } from '../../core/debrief/smoke-calibration.ts';
import type { Job } from '../../core/job/job.ts';
import { jobFromValue } from '../../core/job/parse-job.ts';
import type { PilotUp } from '../../app/draw/desk.ts';
import { DeskContext } from './desk-context.ts';
import type { Pane, PlanDesk } from '../../app/draw/desk.ts';
import type { PlannedJob } from '../../core/plan/planned-job.ts';
import { visibilityOf } from '../../core/checks/conditions-si.ts';
import { createJobEditor } from '../../app/draw/job-editor.ts';
import { DrawDeskView } from './DrawDeskView.tsx';
import { createOverlayDesk, type OverlayStore } from '../../app/draw/overlay-desk.ts';
import { createPlanPlayer } from '../../app/draw/plan-player.ts';
import { plannedChecks } from '../../core/checks/planned-checks.ts';
import { plannedSky } from '../../core/checks/planned-sky.ts';
import { settledSignal } from '../../app/draw/settled-signal.ts';
import { createPlanningLoop, type PlanJob } from '../../app/draw/planning-loop.ts';

export interface OpenPlanProps {
  readonly stored: Job;
  /** Stores the job durably; rejects with an Error a person understands. */
  readonly save: (job: Job) => Promise<void>;
  /** Starts a planner off the page, ended with the screen. */
  readonly startPlanner: () => { readonly planJob: PlanJob; dispose(): void };
  readonly overlayStore: OverlayStore;
  /** How fast smoke spread when it was last measured; null when it never was. */
  readonly readCalibration: () => Promise<SmokeCalibration | null>;
}

/** The Draw screen of a job that was read: sets up what its parts share, for as long as it is shown. */
export function OpenDraw(props: OpenPlanProps): VNode {
  const opened = useMemo(() => openDesk(props), []);
  useEffect(() => {
    const onHidden = (): void => {
      if (document.visibilityState === 'hidden') {
        opened.desk.player.pause();
        void opened.desk.editor.flush();
      }
    };
    document.addEventListener('visibilitychange', onHidden);
    return () => {
      document.removeEventListener('visibilitychange', onHidden);
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

function openDesk({ stored, save, startPlanner, overlayStore, readCalibration }: OpenPlanProps): { readonly desk: PlanDesk; readonly close: () => void } {
  const editor = createJobEditor(stored, {
    save,
    fault(job) {
      const reading = jobFromValue(job);
      return reading.ok ? null : reading.faults.map(({ path, message }) => `${path} ${message}`).join('; ');
    },
    nowMilliseconds: () => performance.now(),
    after,
  });
  const planner = startPlanner();
  const loop = createPlanningLoop(editor.job, { planJob: planner.planJob, after });
  const plan = (): PlannedJob['plan'] | undefined => loop.planned.peek()?.plan;
  const player = createPlanPlayer({
    durationSeconds: () => plan()?.durationSeconds ?? 0,
    stopsSeconds: () => (plan()?.ships ?? []).flatMap(({ legs }) => legs.map(({ endSeconds }) => endSeconds)).sort((a, b) => a - b),
    reducedMotion: () => matchMedia('(prefers-reduced-motion: reduce)').matches,
  });
  const conditions = computed(() => editor.job.value.conditions);
  const { settled, dispose } = settledSignal(loop.planned, after);
  const overlay = createOverlayDesk(overlayStore);
  const calibration = signal<SmokeCalibration | null>(null);
  readCalibration().then(
    (read) => (calibration.value = read),
    // Without it the published values hold, which is what the screen then says.
    () => {},
  );
  const smoke = computed(() => calibratedSmoke(calibration.value));
  const sky = computed(() => (settled.value === null ? null : plannedSky(settled.value, visibilityOf(conditions.value), smoke.value)));
  return {
    desk: {
      editor,
      planned: loop.planned,
      problem: loop.problem,
      busyFraction: loop.busyFraction,
      settled,
      sky,
      checks: computed(() =>
        settled.value === null || sky.value === null ? null : plannedChecks(settled.value, sky.value, conditions.value, overlay.overlay.value),
      ),
      pane: signal<Pane>('flown'),
      player,
      keptPlan: signal<PlannedJob | null>(null),
      conditions,
      calibration,
      overlay,
      setConditions: (next) => editor.edit('visibility and clouds', (job) => ({ ...job, conditions: next })),
      pilotUp: signal<PilotUp>('north'),
      shipIndex: signal(0),
    },
    close() {
      dispose();
      player.dispose();
      loop.dispose();
      planner.dispose();
      void editor.flush();
    },
  };
}
