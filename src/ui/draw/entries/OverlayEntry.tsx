import type { VNode } from 'preact';
import { counted } from '../../../core/text/counted.ts';
import { useDesk } from '../desk-context.ts';

/** Areas to stay out of and landmarks, from a GeoJSON or KML file of the user's own, kept with the job. */
export function OverlayEntry(): VNode {
  const { overlay, fileName, busy, fault, take, remove } = useDesk().overlay;
  const { value } = overlay;
  return (
    <div class="overlay-entry field">
      <label>
        <span>No-go areas and landmarks, a GeoJSON or KML file</span>
        <input
          type="file"
          accept=".geojson,.json,.kml,application/geo+json,application/json,application/vnd.google-earth.kml+xml"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file !== undefined) void take(file);
            event.currentTarget.value = '';
          }}
        />
      </label>
      {fault.value !== null && (
        <p class="fault" role="alert">
          {fault.value}
        </p>
      )}
      <p class="small" role="status">
        {busy.value ??
          (value === null
            ? ''
            : `Kept with the job: ${counted(value.areas.filter(({ noGo }) => noGo).length, 'no-go area')}, ${counted(value.landmarks.length, 'landmark')}${fileName.value === '' ? '' : ` from ${fileName.value}`}.`)}{' '}
        {value !== null && busy.value === null && (
          <button type="button" class="plain" onClick={() => void remove()}>
            Take it out
          </button>
        )}
      </p>
    </div>
  );
}
