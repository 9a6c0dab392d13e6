import type { VNode } from 'preact';
import type { ShipPlan } from '../../core/plan/plan.ts';
import type { Briefing } from './briefing.ts';
import { useUnitText } from '../fields/units-context.ts';

export interface FormationNotesProps {
  readonly briefing: Briefing;
  readonly ship: ShipPlan;
}

/** How a ship of a formation joins, waits, leaves, and what it does when something fails: heights, calls, and what was proven. */
export function FormationNotes({ briefing, ship }: FormationNotesProps): VNode {
  const { job, planned } = briefing;
  const units = useUnitText();
  const own = units.height.text(planned.air.layerHeightMetres + (ship.ownHeightStepMetres ?? 0));
  const name = job.ships[ship.shipIndex]?.name ?? 'This ship';
  return (
    <>
      Join, wait and leave at <strong>{own}</strong>; call “{name} established” after a full round on your circle, up or down to the layer as cued. Not
      established 75 s before the first smoke, or 3 s off at the time check: say so; lead calls a new hack. Screen dark or no fix for 3 s, held, redo, skip: to{' '}
      {own} and your circle, say so, wait for the time shown. Proven apart: the planned ways, 10 s early or late against each other, each ship on its circle.
      Not proven: before you are on your circle but for height, and any way not cued. Formation only as arranged between all pilots in command.
    </>
  );
}
