import { airPathLengthMetres, airPoseAt } from '../../src/core/paths/air-path.ts';
import { letterFromAir } from '../../src/core/paths/letter-frame.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import type { PlannedInk } from './crowd-eye.ts';

const STEP_METRES = 40;

/** A plan's ink in its letter frame: what the word should look like, wherever it hangs. */
export function plannedInk(plan: Plan): PlannedInk {
  return plan.ships.flatMap(({ legs }) =>
    legs.flatMap((leg) => {
      if (leg.kind !== 'smoke') return [];
      const lengthMetres = airPathLengthMetres(leg.path);
      const count = Math.ceil(lengthMetres / STEP_METRES);
      return Array.from({ length: count + 1 }, (_, index) => letterFromAir(airPoseAt(leg.path, (lengthMetres * index) / count), plan.frame));
    }),
  );
}
