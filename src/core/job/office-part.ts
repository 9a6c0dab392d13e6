import type { Job, JobBooking } from './job.ts';
import { NOTHING_BOOKED } from './nothing-said.ts';

/**
 * The job as other ships and the ground get it: without client, fee and what became of it. What is agreed for the day
 * (hours, permissions) goes along. Two jobs that differ in the office's part alone are the same revision to them.
 */
export function withoutOffice(job: Job): Job {
  const { callTime, reportTime, spareTimes, permissions } = job.booking;
  return { ...job, booking: { ...NOTHING_BOOKED.booking, callTime, reportTime, spareTimes, permissions } };
}

/** A job that came from elsewhere, with the office's part that is kept here. */
export function withOfficeOf(job: Job, booking: JobBooking): Job {
  const { callTime, reportTime, spareTimes, permissions } = job.booking;
  return { ...job, booking: { ...booking, callTime, reportTime, spareTimes, permissions } };
}
