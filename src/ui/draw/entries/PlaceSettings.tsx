import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { JobSite } from '../../../core/job/job.ts';
import { isEntered, withEntered } from '../../../core/job/not-entered.ts';
import { KeptChoice } from '../../fields/KeptChoice.tsx';
import { useDesk } from '../desk-context.ts';
import { AltimeterFigure } from './AltimeterFigure.tsx';
import { JobNumber } from './JobNumber.tsx';
import { PositionEntry } from './PositionEntry.tsx';
import { ReadTimeField } from './ReadTimeField.tsx';
import { VariationEntry } from './VariationEntry.tsx';
import { ViewingPlacesEntry } from './ViewingPlacesEntry.tsx';

const SITE_PATHS = ['site.latitudeDegrees', 'site.longitudeDegrees', 'site.elevationFeet'] as const;

/** Where and when: the site, the crowd's facing, the elevation in its eye, the layer and the read time. */
export function PlaceSettings(): VNode {
  const { editor, kept } = useDesk();
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
        <JobNumber path="conditions.altimeterHectopascals" />
      </div>
      <AltimeterFigure />
      <h3>Site</h3>
      <KeptChoice
        label="Kept sites"
        items={kept.kept.value.sites}
        onTake={(id) => {
          const found = kept.kept.value.sites.find((each) => each.id === id);
          if (found === undefined) return;
          const { name, latitudeDegrees, longitudeDegrees, elevationFeet, timeZone } = found;
          editor.edit('the site', (job) =>
            withEntered({ ...job, site: { ...job.site, name, latitudeDegrees, longitudeDegrees, elevationFeet, timeZone } }, ...SITE_PATHS),
          );
        }}
        onForget={(id) => void kept.forget('sites', id)}
        onKeep={site.name === '' || SITE_PATHS.some((path) => !isEntered(editor.job.value, path)) ? null : () => void kept.keepSite(site)}
        keepWord="Keep this site"
      />
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
      <VariationEntry />
      <ViewingPlacesEntry />
    </div>
  );
}
