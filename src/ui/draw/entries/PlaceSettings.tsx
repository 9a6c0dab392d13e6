import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Job, JobSite } from '../../../core/job/job.ts';
import { JOB_LIMITS } from '../../../core/job/job-limits.ts';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { NumberField } from '../../fields/NumberField.tsx';
import { useDesk } from '../desk-context.ts';
import { ReadTimeField } from './ReadTimeField.tsx';

/** Where and when: the site, the crowd's facing, the elevation in its eye, the layer and the read time. */
export function PlaceSettings(): VNode {
  const { editor } = useDesk();
  const { site, facingDegreesTrue, viewElevationDegrees, layer } = editor.job.value;
  const zones = useMemo(() => Intl.supportedValuesOf('timeZone').map((zone) => <option key={zone} value={zone} />), []);
  const edit = (name: string, part: Partial<Job>): void => editor.edit(name, (job) => ({ ...job, ...part }));
  const editSite = (name: string, part: Partial<JobSite>): void => editor.edit(name, (job) => ({ ...job, site: { ...job.site, ...part } }));
  return (
    <div class="place-settings">
      <div class="fields">
        <NumberField
          label="Crowd looks towards, true"
          unit={'\u00b0'}
          value={facingDegreesTrue}
          limits={JOB_LIMITS.facingDegreesTrue}
          step={5}
          wraps
          onChange={(degrees) => edit('facing', { facingDegreesTrue: degrees % 360 })}
        />
        <NumberField
          label="Text stands above the horizon"
          unit={'\u00b0'}
          value={viewElevationDegrees}
          limits={JOB_LIMITS.viewElevationDegrees}
          step={5}
          onChange={(degrees) => edit('elevation', { viewElevationDegrees: degrees })}
        />
        <NumberField
          label="Layer, above sea level"
          unit="ft"
          value={layer.altitudeFeet}
          limits={JOB_LIMITS.layer.altitudeFeet}
          step={500}
          onChange={(altitudeFeet) => edit('layer', { layer: { ...layer, altitudeFeet } })}
        />
        <ReadTimeField />
      </div>
      <h3>Site</h3>
      <div class="fields">
        <label class="field">
          <span>Name</span>
          <input value={site.name} maxLength={60} onInput={(event) => editSite('site name', { name: event.currentTarget.value })} />
        </label>
        <SiteCell
          label={'Latitude, \u00b0, north positive'}
          value={site.latitudeDegrees}
          limits={JOB_LIMITS.site.latitudeDegrees}
          onChange={(latitudeDegrees) => editSite('latitude', { latitudeDegrees })}
        />
        <SiteCell
          label={'Longitude, \u00b0, east positive'}
          value={site.longitudeDegrees}
          limits={JOB_LIMITS.site.longitudeDegrees}
          onChange={(longitudeDegrees) => editSite('longitude', { longitudeDegrees })}
        />
        <SiteCell
          label="Elevation, ft"
          value={site.elevationFeet}
          limits={JOB_LIMITS.site.elevationFeet}
          onChange={(elevationFeet) => editSite('site elevation', { elevationFeet })}
        />
        <div class="field">
          <span aria-hidden="true">Crowd faces of itself, {'\u00b0'} true</span>
          <NumberCell
            label="Crowd faces of itself, degrees true; empty does not matter"
            value={site.crowdFacingDegreesTrue ?? Number.NaN}
            limits={JOB_LIMITS.site.crowdFacingDegreesTrue}
            placeholder="any way"
            onChange={(degrees) => editSite('crowd', { crowdFacingDegreesTrue: degrees % 360 })}
            onEmpty={() => editSite('crowd', { crowdFacingDegreesTrue: null })}
          />
        </div>
        <label class="field">
          <span>Time zone</span>
          <input value={site.timeZone} list="time-zones" onChange={(event) => editSite('time zone', { timeZone: event.currentTarget.value.trim() })} />
          <datalist id="time-zones">{zones}</datalist>
        </label>
      </div>
    </div>
  );
}

interface SiteCellProps {
  readonly label: string;
  readonly value: number;
  readonly limits: readonly [number, number];
  readonly onChange: (value: number) => void;
}

function SiteCell({ label, value, limits, onChange }: SiteCellProps): VNode {
  return (
    <div class="field">
      <span aria-hidden="true">{label}</span>
      <NumberCell label={label} value={value} limits={limits} onChange={onChange} />
    </div>
  );
}
