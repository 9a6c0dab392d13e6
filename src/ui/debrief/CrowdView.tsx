import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { calibratedSmoke } from '../../core/sky/smoke-calibration.ts';
import type { Job } from '../../core/job/job.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { writtenWords } from '../../core/job/written-words.ts';
import { SkyCanvas } from '../sky/SkyCanvas.tsx';
import { useAppearance } from '../sky/use-appearance.ts';
import { crowdMoment, crowdSun } from './crowd-moment.ts';
import { useDebrief } from './debrief-context.ts';
import type { FlownScene } from './flown-scene.ts';

export interface CrowdViewProps {
  readonly scene: FlownScene;
  readonly trails: readonly Trail[];
  readonly job: Job;
  /** Shows one moment for good; null follows the player. */
  readonly heldMilliseconds: number | null;
}

/** A picture of spreading smoke costs more than a line: it is drawn anew at most this often. */
const REDRAWN_MILLISECONDS = 80;

/** The smoke that was really laid, as the crowd saw it from where it stood. */
export function CrowdView({ scene, trails, job, heldMilliseconds }: CrowdViewProps): VNode {
  const { desk, player } = useDebrief();
  const appearance = useAppearance();
  const followed = useSignal(player.atMilliseconds.peek());
  useEffect(() => {
    if (heldMilliseconds !== null) return undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const unsubscribe = player.atMilliseconds.subscribe(() => {
      timer ??= setTimeout(() => {
        timer = undefined;
        followed.value = player.atMilliseconds.peek();
      }, REDRAWN_MILLISECONDS);
    });
    return () => {
      clearTimeout(timer);
      unsubscribe();
    };
  }, [player, followed, heldMilliseconds]);
  const air = useMemo(() => jobAir(job), [job]);
  if (trails.length === 0) return <p class="quiet">No smoke is known of this flight yet. Mark it on the time line, or wait for the replay.</p>;
  const at = heldMilliseconds ?? followed.value;
  const moment = crowdMoment(scene, air, calibratedSmoke(desk.calibration.value).likely, at);
  return (
    <SkyCanvas
      trails={trails}
      moment={moment}
      sun={crowdSun(job, at)}
      appearance={appearance}
      description={`${writtenWords(job)} as it was written, seen from the crowd`}
    />
  );
}
