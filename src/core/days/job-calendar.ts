import type { Job } from '../job/job.ts';
import { isEntered } from '../job/not-entered.ts';
import type { CalendarEvent } from './ics-write.ts';

const MINUTE = 60_000;
const CALL_MILLISECONDS = 15 * MINUTE;
const REPORT_MILLISECONDS = 30 * MINUTE;

/** The hours of a job as entries of a calendar: call, report, the writing until it is read, deadline, spare dates. Only what was entered. */
export function jobCalendar(job: Job, writingSeconds: number): CalendarEvent[] {
  const { booking, site } = job;
  const located = isEntered(job, 'site.latitudeDegrees') && isEntered(job, 'site.longitudeDegrees');
  const base = {
    place: site.name,
    tentative: false,
    alarmSeconds: null,
    latitudeDegrees: located ? site.latitudeDegrees : null,
    longitudeDegrees: located ? site.longitudeDegrees : null,
  };
  const words = job.text.replaceAll('\n', ' ');
  const event = (
    what: string,
    startMilliseconds: number,
    lastsMilliseconds: number,
    title: string,
    notes: string,
    part: Partial<CalendarEvent> = {},
  ): CalendarEvent => ({
    ...base,
    uid: `${what}-${job.id}@quillwind`,
    startMilliseconds,
    endMilliseconds: startMilliseconds + lastsMilliseconds,
    title,
    notes,
    ...part,
  });
  const writing = (what: string, time: string, tentative: boolean): CalendarEvent => {
    const read = Date.parse(time);
    return event(
      what,
      read - writingSeconds * 1000,
      writingSeconds * 1000 + CALL_MILLISECONDS,
      `${tentative ? 'Kept free: ' : ''}${words}, read at the end of the writing`,
      job.name,
      {
        tentative,
        alarmSeconds: tentative ? null : 3600,
      },
    );
  };
  return [
    ...(booking.callTime === null
      ? []
      : [event('call', Date.parse(booking.callTime), CALL_MILLISECONDS, `Go or no-go: ${job.name}`, booking.contact, { alarmSeconds: 1800 })]),
    ...(booking.reportTime === null
      ? []
      : [event('report', Date.parse(booking.reportTime), REPORT_MILLISECONDS, `Report: ${job.name}`, '', { alarmSeconds: 3600 })]),
    ...(isEntered(job, 'readTime') ? [writing('read', job.readTime, false)] : []),
    ...booking.spareTimes.map((time, index) => writing(`spare-${index + 1}`, time, true)),
    ...(booking.deadlineTime === null
      ? []
      : [event('deadline', Date.parse(booking.deadlineTime), CALL_MILLISECONDS, `Owed: ${job.name}`, booking.owed.join(', '))]),
  ];
}
