import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { cleanName } from '../../core/text/clean-name.ts';
import type { GeodeticPoint } from '../../core/earth/site-frame.ts';
import { JOB_LENGTHS } from '../../core/job/job-schema.ts';
import { jobLimits } from '../../core/job/job-limits.ts';
import { NumberCell } from '../fields/NumberCell.tsx';
import { RemoveButton } from '../fields/RemoveButton.tsx';
import { useDesk } from './desk-context.ts';

export interface NamedPointsProps {
  /** Bearing and distance of the first smoke from a point, in words. */
  readonly say: (place: GeodeticPoint, name: string) => string;
}

/** The first smoke as seen from any point the pilot likes, kept with the job: an airfield, a beacon, a bridge. */
export function NamedPoints({ say }: NamedPointsProps): VNode {
  const { editor } = useDesk();
  const { namedPoints } = editor.job.value;
  const name = useSignal('');
  const latitude = useSignal<number | null>(null);
  const longitude = useSignal<number | null>(null);
  const [latitudeDegrees, longitudeDegrees] = [latitude.value, longitude.value];
  const named = cleanName(name.value);
  const ready = named !== '' && latitudeDegrees !== null && longitudeDegrees !== null;
  const add = (): void => {
    if (!ready) return;
    editor.edit(`point ${named}`, (job) => ({ ...job, namedPoints: [...job.namedPoints, { name: named, latitudeDegrees, longitudeDegrees }] }));
    name.value = '';
    latitude.value = null;
    longitude.value = null;
  };
  return (
    <div class="named-points">
      {namedPoints.length > 0 && (
        <ul>
          {namedPoints.map((point, index) => (
            <li key={index}>
              <span>First smoke {say(point, point.name)}</span>
              <RemoveButton
                label={`Take ${point.name} out`}
                onPress={() => editor.edit(`point ${point.name} out`, (job) => ({ ...job, namedPoints: job.namedPoints.filter((_, at) => at !== index) }))}
              />
            </li>
          ))}
        </ul>
      )}
      {namedPoints.length < JOB_LENGTHS.namedPoints && (
        <details>
          <summary>{namedPoints.length === 0 ? 'First smoke from a point of your own' : 'From another point'}</summary>
          <div class="fields">
            <label class="field">
              <span>Its name</span>
              <input value={name.value} maxLength={60} onInput={(event) => (name.value = event.currentTarget.value)} />
            </label>
            <div class="field">
              <span aria-hidden="true">Latitude, {'\u00b0'}, north positive</span>
              <NumberCell
                label="Latitude of the point, degrees"
                value={latitudeDegrees ?? Number.NaN}
                limits={jobLimits('namedPoints.latitudeDegrees')}
                onChange={(value) => (latitude.value = value)}
                onEmpty={() => (latitude.value = null)}
              />
            </div>
            <div class="field">
              <span aria-hidden="true">Longitude, {'\u00b0'}, east positive</span>
              <NumberCell
                label="Longitude of the point, degrees"
                value={longitudeDegrees ?? Number.NaN}
                limits={jobLimits('namedPoints.longitudeDegrees')}
                onChange={(value) => (longitude.value = value)}
                onEmpty={() => (longitude.value = null)}
              />
            </div>
          </div>
          {ready && <p role="status">First smoke {say({ latitudeDegrees, longitudeDegrees }, named)}</p>}
          <button type="button" disabled={!ready} onClick={add}>
            Keep it with the job
          </button>
        </details>
      )}
    </div>
  );
}
