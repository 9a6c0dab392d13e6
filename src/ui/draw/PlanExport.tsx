import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { fileNameFrom, handOverFile } from '../../app/hand-over-file.ts';
import type { Job } from '../../core/job/job.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { jobPlanGeoJson } from '../../core/plan/job-plan-geojson.ts';

export interface PlanExportProps {
  readonly job: Job;
  readonly plan: Plan;
  /** What the file is called after. */
  readonly title: string;
}

/** Gives the plan away as GeoJSON: every leg over the ground in the planned wind, with a time for each vertex. */
export function PlanExport({ job, plan, title }: PlanExportProps): VNode {
  const fault = useSignal<string | null>(null);
  const keep = (): void => {
    fault.value = null;
    handOverFile({ name: fileNameFrom(title, 'geojson'), type: 'application/geo+json', content: `${JSON.stringify(jobPlanGeoJson(job, plan))}\n` }).catch(
      (error: unknown) => {
        fault.value = error instanceof Error ? error.message : String(error);
      },
    );
  };
  return (
    <div class="plan-export">
      <button type="button" onClick={keep}>
        Keep as GeoJSON
      </button>
      <p class="small quiet">
        Strokes and ways between them over the ground in the planned wind, timed to end at the read time. For a map, not for navigation.
      </p>
      {fault.value !== null && (
        <p class="fault" role="alert">
          The file was not made: {fault.value}
        </p>
      )}
    </div>
  );
}
