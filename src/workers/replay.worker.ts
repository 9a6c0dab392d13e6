import { expose } from 'comlink';
import { createReplayService } from './replay-service.worker.ts';

expose(createReplayService());
