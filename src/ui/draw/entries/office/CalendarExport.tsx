import type { VNode } from 'preact';
import { fileNameFrom, handOverFile } from '../../../../app/hand-over-file.ts';
import { writeCalendar } from '../../../../core/days/ics-write.ts';
import { jobCalendar } from '../../../../core/days/job-calendar.ts';
import { useDesk } from '../../desk-context.ts';

/** The job's hours as a file for any calendar: call, report, read time, deadline, spare dates. */
export function CalendarExport(): VNode {
  const { editor, planned } = useDesk();
  const job = editor.job.value;
  const events = jobCalendar(job, planned.value?.plan.durationSeconds ?? 0);
  return (
    <button
      type="button"
      disabled={events.length === 0}
      onClick={() => void handOverFile({ name: fileNameFrom(job.name, 'ics'), type: 'text/calendar', content: writeCalendar(events, Date.now()) })}
    >
      Hours for a calendar (.ics)
    </button>
  );
}
