import { expose } from 'comlink';
import type { OffPageServices } from './off-page-services.ts';
import { answerArtwork } from './artwork-service.ts';
import { orderOfRest, ordersByFirst } from '../core/order/rest-order.ts';
import { createPlannerService } from './planner-service.ts';
import { createReplayService } from './replay-service.ts';
import { tracksFromBytes } from './track-service.ts';

// The one worker of the app. Each that is started serves one purpose, and is ended by whoever started it.
const services: OffPageServices = {
  planner: createPlannerService(),
  orderOfRest,
  ordersByFirst,
  replay: createReplayService(),
  readTracks: tracksFromBytes,
  readArtwork: answerArtwork,
  // The reader of pictures is large and seldom needed: it is fetched when it is.
  readPhotographData: async (file) => (await import('./photograph-service.ts')).readPhotographData(file),
  layPhotograph: async (request, onProgress) => (await import('./photograph-service.ts')).layPhotograph(request, onProgress),
};

expose(services);
