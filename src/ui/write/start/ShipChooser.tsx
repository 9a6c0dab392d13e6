import type { VNode } from 'preact';
import type { Preflight } from '../../../app/flight/preflight.ts';

/** Which ship of several this one is: chosen by hand, beside the button that needs it. */
export function ShipChooser({ preflight: { job, shipIndex } }: { readonly preflight: Preflight }): VNode | null {
  if (job.ships.length === 1) return null;
  return (
    <label class="field">
      <span>This ship is</span>
      <select
        value={shipIndex.value === null ? '' : String(shipIndex.value)}
        onChange={(event) => (shipIndex.value = event.currentTarget.value === '' ? null : Number(event.currentTarget.value))}
      >
        <option value="">choose</option>
        {job.ships.map(({ name }, index) => (
          <option key={index} value={String(index)}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
