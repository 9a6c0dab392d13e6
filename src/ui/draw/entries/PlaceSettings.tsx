import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { JobSite } from '../../../core/job/job.ts';
import { useDesk } from '../desk-context.ts';
import { JobNumber } from './JobNumber.tsx';
import { PositionEntry } from './PositionEntry.tsx';
import { ReadTimeField } from './ReadTimeField.tsx';
import { ViewingPlacesEntry } from './ViewingPlacesEntry.tsx';

/** Where and when: the site, the crowd's facing, the elevation in its eye, the layer and the read time. */
export function PlaceSettings(): VNode {
  const { editor } = useDesk();
  const { site } = editor.job.value;
  const zones = useMemo(() => Intl.supportedValuesOf('timeZone').map((zone) => <option key={zone} value={zone} />), []);
  const editSite = (name: string, part: Partial<JobSite>): void => editor.edit(name, (job) => ({ ...job, site: { ...job.site, ...part } }));
  return (
    <div class="place-settings">
      <div class="fields">
        <JobNumber path="facingDegreesTrue" />
        <JobNumber path="viewElevationDegrees" />
        <JobNumber path="layer.altitudeFeet" />
        <ReadTimeField />
      </div>
      <h3>Site</h3>
      <PositionEntry />
      <div class="fields">
        <label class="field">
          <span>Name</span>
          <input value={site.name} maxLength={60} onInput={(event) => editSite('site name', { name: event.currentTarget.value })} />
        </label>
        <JobNumber path="site.latitudeDegrees" />
        <JobNumber path="site.longitudeDegrees" />
        <JobNumber path="site.elevationFeet" />
        <JobNumber path="site.crowdFacingDegreesTrue" />
        <label class="field">
          <span>Time zone</span>
          <input value={site.timeZone} list="time-zones" onChange={(event) => editSite('time zone', { timeZone: event.currentTarget.value.trim() })} />
          <datalist id="time-zones">{zones}</datalist>
        </label>
      </div>
      <ViewingPlacesEntry />
    </div>
  );
}
