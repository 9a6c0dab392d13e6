import { effect, type Signal } from '@preact/signals';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import type { Database } from '../../store/database.ts';
import { createUnitsShelf } from '../units-choice.ts';

/** Tells the units chosen on this tablet to a flight, which begins before they are read; returns what ends it. */
export function tellUnits(database: Database, told: Signal<UnitText | null>): () => void {
  const { units } = createUnitsShelf(database);
  return effect(() => {
    told.value = unitText(units.value);
  });
}
