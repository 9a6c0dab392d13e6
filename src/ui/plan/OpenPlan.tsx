import './plan.css';
import './placement.css';
import './sky.css';
import '../parts/fields.css';
import '../parts/pictures.css';
import { computed, signal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import type { Job } from '../../core/formats/job.ts';
import { jobFromValue } from '../../core/formats/parse-job.ts';
import type { PilotUp } from '../parts/PilotPicture.tsx';
import { DeskContext, type PlanDesk, type PlannedJob } from './desk.ts';
import { createJobEditor } from './job-editor.ts';
import { PlanDeskView } from './PlanDeskView.tsx';
import { createPlanPlayer } from './plan-player.ts';
import { plannedSky } from './planned-sky.ts';
import { createPlanningLoop, type PlanJob } from './planning-loop.ts';

export interface OpenPlanProps {
  readonly stored: Job;
  /** Stores the job durably; rejects with an Error a person understands. */
  readonly save: (job: Job) => Promise<void>;
  readonly planJob: PlanJob;
}

/** The Plan screen of a job that was read: sets up what its parts share, for as long as it is shown. */
export function OpenPlan({ stored, save, planJob }: OpenPlanProps): VNode {
  const opened = useMemo(() => openDesk(stored, save, planJob), []);
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
      <PlanDeskView />
    </DeskContext.Provider>
  );
}

const after = (milliseconds: number, call: () => void): (() => void) => {
  const timer = setTimeout(call, milliseconds);
  return () => clearTimeout(timer);
};

function openDesk(stored: Job, save: OpenPlanProps['save'], planJob: PlanJob): { readonly desk: PlanDesk; readonly close: () => void } {
  const editor = createJobEditor(stored, {
    save,
    fault(job) {
      const reading = jobFromValue(job);
      return reading.ok ? null : reading.faults.map(({ path, message }) => `${path} ${message}`).join('; ');
    },
    nowMilliseconds: () => performance.now(),
    after,
  });
  const loop = createPlanningLoop(editor.job, { planJob, after });
  const plan = (): PlannedJob['plan'] | undefined => loop.planned.peek()?.plan;
  const player = createPlanPlayer({
    durationSeconds: () => plan()?.durationSeconds ?? 0,
    stopsSeconds: () => (plan()?.ships ?? []).flatMap(({ legs }) => legs.map(({ endSeconds }) => endSeconds)).sort((a, b) => a - b),
    reducedMotion: () => matchMedia('(prefers-reduced-motion: reduce)').matches,
  });
  return {
    desk: {
      editor,
      planned: loop.planned,
      problem: loop.problem,
      busyFraction: loop.busyFraction,
      sky: computed(() => (loop.planned.value === null ? null : plannedSky(loop.planned.value))),
      player,
      keptPlan: signal<PlannedJob | null>(null),
      pilotUp: signal<PilotUp>('north'),
      shipIndex: signal(0),
    },
    close() {
      player.dispose();
      loop.dispose();
      void editor.flush();
    },
  };
}
