import type { ReadonlySignal } from '@preact/signals';
import { followRoute } from './follow-route.ts';
import type { Route } from './route.ts';

/** What the screens read and call; made once in main. */
export interface Application {
  readonly route: ReadonlySignal<Route>;
}

/** Starts everything that lives as long as the page. */
export function createApplication(): Application {
  return { route: followRoute() };
}
