import { type ReadonlySignal, signal } from '@preact/signals';
import { type Route, routeFromHash } from './route.ts';

/** The route of the page's address, for as long as the page lives. */
export function followRoute(): ReadonlySignal<Route> {
  const route = signal(routeFromHash(location.hash));
  addEventListener('hashchange', () => {
    route.value = routeFromHash(location.hash);
  });
  return route;
}
