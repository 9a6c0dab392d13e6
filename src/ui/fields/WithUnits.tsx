import type { ComponentChildren, VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import { createUnitsShelf } from '../../app/units-choice.ts';
import { useApplication } from '../application-context.ts';
import { UnitsContext } from './units-context.ts';

/** Gives a screen the units chosen by kind: for its entries, and for what it writes. */
export function WithUnits({ children }: { readonly children: ComponentChildren }): VNode {
  const { database } = useApplication();
  const units = useMemo(() => createUnitsShelf(database), [database]);
  return <UnitsContext.Provider value={units}>{children}</UnitsContext.Provider>;
}
