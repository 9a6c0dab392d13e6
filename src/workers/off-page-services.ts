import type { answerArtwork } from './artwork-service.ts';
import type { layPhotograph, readPhotographData } from './photograph-service.ts';
import type { orderOfRest, ordersByFirst } from '../core/order/rest-order.ts';
import type { PlannerService } from './planner-service.ts';
import type { ReplayService } from './replay-service.ts';
import type { tracksFromBytes } from './track-service.ts';

/** What the worker serves, as it is called from here; `off-page.worker.ts` exposes it. */
export interface OffPageServices {
  readonly planner: PlannerService;
  readonly orderOfRest: typeof orderOfRest;
  readonly ordersByFirst: typeof ordersByFirst;
  readonly replay: ReplayService;
  readonly readTracks: typeof tracksFromBytes;
  readonly readArtwork: typeof answerArtwork;
  readonly readPhotographData: typeof readPhotographData;
  readonly layPhotograph: typeof layPhotograph;
}
