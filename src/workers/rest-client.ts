import type { RestOrder, RestProblem } from '../core/order/rest-of-flight.ts';
import { type OffPage, startOffPage } from './off-page.ts';

/** Orders what is left of a flight, off the page. */
export interface RestClient {
  /** To the answer of `orderOfRest`; rejects when the worker breaks off or could not be started. */
  order(problem: RestProblem): Promise<RestOrder | null>;
  /** To the answer of `ordersByFirst`; rejects alike. */
  byFirst(problem: RestProblem): Promise<RestOrder[]>;
  dispose(): void;
}

/** A client of a worker, started unless one is handed in. Disposing of the client ends it. */
export function startRestClient({ services, broken, end }: OffPage = startOffPage('order of the rest')): RestClient {
  return {
    order: (problem) => Promise.race([broken, services.orderOfRest(problem)]),
    byFirst: (problem) => Promise.race([broken, services.ordersByFirst(problem)]),
    dispose: end,
  };
}
