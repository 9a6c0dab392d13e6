import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { LONGEST_OVERLAY_CHARACTERS, parseOverlayText } from '../../core/sky/overlay.ts';
import { formatNumber } from '../parts/number-formats.ts';
import { useDesk } from './desk.ts';

/** Areas to stay out of and landmarks, from a GeoJSON file of the user's own; kept while the screen is open. */
export function OverlayEntry(): VNode {
  const { overlay } = useDesk();
  const fault = useSignal<string | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    // Known before a byte is read; a character takes a byte at least.
    if (file.size > 4 * LONGEST_OVERLAY_CHARACTERS) {
      fault.value = `${file.name} is ${formatNumber(file.size / 1e6)} MB; at most 20 MB are read`;
      return;
    }
    const read = await file.text().then(parseOverlayText, () => ({ ok: false as const, reason: 'the file could not be read' }));
    fault.value = read.ok ? null : read.reason;
    if (read.ok) overlay.value = read.overlay;
  };
  const { value } = overlay;
  return (
    <div class="overlay-entry field">
      <label>
        <span>No-go areas and landmarks, a GeoJSON file</span>
        <input
          type="file"
          accept=".geojson,.json,application/geo+json,application/json"
          onChange={(event) => {
            void take(event.currentTarget.files?.[0]);
            event.currentTarget.value = '';
          }}
        />
      </label>
      {fault.value !== null && (
        <p class="fault" role="alert">
          Not taken: {fault.value}. {value === null ? 'No overlay is loaded.' : 'The overlay loaded before stays.'}
        </p>
      )}
      {value !== null && (
        <p class="small" role="status">
          Loaded: {value.areas.filter(({ noGo }) => noGo).length} no-go areas, {value.landmarks.length} landmarks.{' '}
          <button type="button" class="plain" onClick={() => (overlay.value = null)}>
            Take it out
          </button>
        </p>
      )}
    </div>
  );
}
