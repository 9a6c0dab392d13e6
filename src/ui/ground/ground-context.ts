import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { GroundDesk } from '../../app/ground/ground-desk.ts';
import type { GroundPlan } from '../../app/ground/ground-plan.ts';

/** The desk around the parts of the Ground screen. */
export const GroundContext = createContext<GroundDesk | null>(null);

/** Throws an Error outside of the Ground screen. */
export function useGround(): GroundDesk {
  const desk = useContext(GroundContext);
  if (desk === null) throw new Error('This component must stand on the Ground screen.');
  return desk;
}

/** What the parts that look at the sky are given. */
export interface LookProps {
  readonly plan: GroundPlan;
  readonly sinceDatumSeconds: number;
}
