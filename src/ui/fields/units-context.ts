import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { UnitsShelf } from '../../app/units-choice.ts';
import { nextUnit, OWN_UNITS, shownUnit } from '../../core/units/unit-kinds.ts';

/** The units of entries; null where nothing may be chosen. */
export const UnitsContext = createContext<UnitsShelf | null>(null);

/** How an entry of a unit of the job file is shown and typed. */
export interface FieldUnit {
  readonly unit: string;
  /** How many of the shown unit one of the file's is; 1 where nothing else was chosen. */
  readonly factor: number;
  /** Goes to the next unit of its kind; null where there is no other. */
  readonly next: (() => void) | null;
}

export function useFieldUnit(unit: string): FieldUnit {
  const shelf = useContext(UnitsContext);
  const shown = shelf === null ? null : shownUnit(unit, shelf.units.value ?? OWN_UNITS);
  if (shelf === null || shown === null) return { unit, factor: 1, next: null };
  const [plain = ''] = shown.unit.split('/').length > 2 || shown.kind === 'speed' ? [shown.unit] : shown.unit.split('/');
  return { unit: shown.unit, factor: shown.factor, next: () => shelf.choose(shown.kind, nextUnit(shown.kind, plain)) };
}
