import { expose } from 'comlink';
import type { OffPageServices } from './off-page-services.ts';
import { answerArtwork } from './artwork-service.ts';
import { createPlannerService } from './planner-service.ts';
import { createReplayService } from './replay-service.ts';
import { tracksFromBytes } from './track-service.ts';

// The one worker of the app. Each that is started serves one purpose, and is ended by whoever started it.
const services: OffPageServices = { planner: createPlannerService(), replay: createReplayService(), readTracks: tracksFromBytes, readArtwork: answerArtwork };

expose(services);
