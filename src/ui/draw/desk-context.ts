import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { PlanDesk } from '../../app/draw/desk.ts';

export const DeskContext = createContext<PlanDesk | null>(null);

/** The desk around this component. Throws an Error outside of the Draw screen. */
export function useDesk(): PlanDesk {
  const desk = useContext(DeskContext);
  if (desk === null) throw new Error('This component must stand on the Draw screen.');
  return desk;
}
