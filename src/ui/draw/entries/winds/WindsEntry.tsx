import type { VNode } from 'preact';
import { BulletinEntry } from './BulletinEntry.tsx';
import { ForecastsEntry } from './ForecastsEntry.tsx';
import { LayerWind } from './LayerWind.tsx';
import { WindRows } from './WindRows.tsx';

/** Winds aloft: pasted or typed, and what they make of the layer. */
export function WindsEntry(): VNode {
  return (
    <div class="winds-entry">
      <LayerWind />
      <BulletinEntry />
      <WindRows />
      <ForecastsEntry />
    </div>
  );
}
