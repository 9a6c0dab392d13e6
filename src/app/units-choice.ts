import { type ReadonlySignal, signal } from '@preact/signals';
import { OWN_UNITS, UNIT_KINDS, type UnitChoice, type UnitKind } from '../core/units/unit-kinds.ts';
import type { Database } from '../store/database.ts';
import { readSetting, saveSetting } from '../store/settings.ts';

/** The units that entries are shown and typed in, chosen once and changeable at any of them. */
export interface UnitsShelf {
  readonly units: ReadonlySignal<UnitChoice>;
  choose(kind: UnitKind, unit: string): void;
}

const SETTING = 'units';

export function createUnitsShelf(database: Database): UnitsShelf {
  const units = signal<UnitChoice>(OWN_UNITS);
  void storedUnits(database).then((stored) => (units.value = { ...units.peek(), ...stored }));
  return {
    units,
    choose(kind, unit) {
      units.value = { ...units.peek(), [kind]: unit };
      saveSetting(database, SETTING, units.peek()).catch(() => {});
    },
  };
}

/** What was chosen on this device; the kinds nobody chose, or where the store cannot be read, are missing. Never rejects. */
export async function storedUnits(database: Database): Promise<Partial<UnitChoice>> {
  const stored = await readSetting(database, SETTING).catch(() => null);
  if (typeof stored !== 'object' || stored === null) return {};
  const known = (Object.keys(UNIT_KINDS) as UnitKind[]).flatMap((kind) => {
    const unit = (stored as Readonly<Record<string, unknown>>)[kind];
    return typeof unit === 'string' && Object.hasOwn(UNIT_KINDS[kind], unit) ? [[kind, unit] as const] : [];
  });
  return Object.fromEntries(known);
}
