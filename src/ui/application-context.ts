import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Application } from '../app/application.ts';

/** Carries the one Application to every screen. */
export const ApplicationContext = createContext<Application | null>(null);

/** The Application around this component. Throws an Error outside of `App`. */
export function useApplication(): Application {
  const application = useContext(ApplicationContext);
  if (application === null) throw new Error('This component must stand inside App.');
  return application;
}
