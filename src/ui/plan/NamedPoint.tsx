import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { GeodeticPoint } from '../../core/earth/site-frame.ts';
import { JOB_LIMITS } from '../../core/formats/job-limits.ts';
import { NumberCell } from '../parts/NumberCell.tsx';

export interface NamedPointProps {
  /** Bearing and distance of the first smoke from a point, in words. */
  readonly say: (place: GeodeticPoint, name: string) => string;
}

/** The first smoke seen from any point the pilot likes: an airfield, a beacon, a bridge. */
export function NamedPoint({ say }: NamedPointProps): VNode {
  const name = useSignal('');
  const latitude = useSignal<number | null>(null);
  const longitude = useSignal<number | null>(null);
  const [latitudeDegrees, longitudeDegrees] = [latitude.value, longitude.value];
  return (
    <details class="named-point">
      <summary>First smoke from another point</summary>
      <div class="fields">
        <label class="field">
          <span>Its name</span>
          <input value={name.value} maxLength={60} onInput={(event) => (name.value = event.currentTarget.value)} />
        </label>
        <div class="field">
          <span aria-hidden="true">Latitude, {'\u00b0'}</span>
          <NumberCell label="Latitude of the point, degrees" value={latitude.value ?? Number.NaN} limits={JOB_LIMITS.site.latitudeDegrees} onChange={(value) => (latitude.value = value)} onEmpty={() => (latitude.value = null)} />
        </div>
        <div class="field">
          <span aria-hidden="true">Longitude, {'\u00b0'}</span>
          <NumberCell label="Longitude of the point, degrees" value={longitude.value ?? Number.NaN} limits={JOB_LIMITS.site.longitudeDegrees} onChange={(value) => (longitude.value = value)} onEmpty={() => (longitude.value = null)} />
        </div>
      </div>
      {latitudeDegrees !== null && longitudeDegrees !== null && <p role="status">{say({ latitudeDegrees, longitudeDegrees }, name.value.trim() || 'that point')}</p>}
    </details>
  );
}
