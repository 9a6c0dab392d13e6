import { expose } from 'comlink';
import { createPlannerService } from './planner-service.worker.ts';

expose(createPlannerService());
