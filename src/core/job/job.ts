import type { ReadonlyOf } from '../text/field-schemas.ts';
import type { JOB_SCHEMA } from './job-schema.ts';

/** One booking as the job file has it, in the pilot's units; `job-schema.ts` says what each field means. */
export type Job = ReadonlyOf<typeof JOB_SCHEMA>;

export type JobSite = Job['site'];
export type JobWind = Job['winds'][number];
/** Lead first. One to three in the screens; the file knows no limit but 9. */
export type JobShip = Job['ships'][number];
/** A drawing beside the words, as strokes to be flown. */
export type JobDrawing = Job['drawings'][number];
export type JobOptions = Job['options'];
/** Null where nobody has looked. */
export type JobConditions = Job['conditions'];
export type JobCloud = NonNullable<JobConditions['clouds']>[number];
/** A place the pilot finds from the air, from which the first smoke is told by bearing and distance. */
export type JobPoint = Job['namedPoints'][number];
/** The office's side: client, fee, permissions, outcomes. */
export type JobBooking = Job['booking'];
export type JobPermission = JobBooking['permissions'][number];
/** Another place where people look from. */
export type JobViewingPlace = Job['viewingPlaces'][number];
