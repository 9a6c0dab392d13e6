import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { UnitsShelf } from '../../app/units-choice.ts';
import { type UnitText, unitText } from '../../core/text/unit-text.ts';
import { nextUnit, OWN_UNITS, roundStep, shownUnit } from '../../core/units/unit-kinds.ts';

/** The units of entries; null where nothing may be chosen. */
export const UnitsContext = createContext<UnitsShelf | null>(null);

/** How quantities are written here: in the chosen units. */
export function useUnitText(): UnitText {
  return unitText(useContext(UnitsContext)?.units.value);
}

const SPELLED: Readonly<Record<string, string>> = { ft: 'feet', kt: 'knots', gal: 'US gallons', 'statute mi': 'statute miles' };

/** How an entry of a unit of the job file is shown and typed. */
export interface FieldUnit {
  readonly unit: string;
  /** A label that names the file's unit, with the unit that is shown. */
  readonly label: (text: string) => string;
  /** The file's value in the unit that is shown, with so many digits; the very value where nothing else was chosen. */
  readonly shown: (own: number, digits?: number) => number;
  /** The inverse, to nine digits. */
  readonly own: (shown: number) => number;
  /** A step of the file's unit as a round one of the shown unit. */
  readonly step: (own: number) => number;
  /** Goes to the next unit of its kind; null where there is no other. */
  readonly next: (() => void) | null;
}

export function useFieldUnit(unit: string): FieldUnit {
  const shelf = useContext(UnitsContext);
  const shown = shelf === null ? null : shownUnit(unit, shelf.units.value ?? OWN_UNITS);
  const { factor, zero } = shown ?? { factor: 1, zero: 0 };
  const same = factor === 1;
  const chosen = shown?.unit ?? unit;
  const kept = {
    label: (text: string) => (chosen === unit ? text : text.replace(`, ${unit}`, `, ${chosen}`).replace(SPELLED[unit] ?? unit, chosen)),
    shown: (own: number, digits = 15) => (same ? own : Number((own * factor + zero).toPrecision(digits))),
    own: (value: number) => (same ? value : Number(((value - zero) / factor).toPrecision(9))),
    step: (own: number) => (same ? own : roundStep(own * factor)),
  };
  if (shelf === null || shown === null) return { unit, ...kept, next: null };
  const [plain = ''] = shown.unit.split('/').length > 2 || shown.kind === 'speed' ? [shown.unit] : shown.unit.split('/');
  return { unit: shown.unit, ...kept, next: () => shelf.choose(shown.kind, nextUnit(shown.kind, plain, unit === 'statute mi')) };
}
