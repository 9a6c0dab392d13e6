import type { Job } from '../../core/job/job.ts';

/** When the text should be read, in the site's own time: `Sat 19 Jun 2027, 13:30 EDT`; in UTC when its zone is unknown. */
export function readTimeText({ readTime, site }: Pick<Job, 'readTime' | 'site'>): string {
  const instant = Date.parse(readTime);
  const written = (timeZone: string): string => {
    const parts = new Intl.DateTimeFormat('en-US', {
      timeZone,
      weekday: 'short',
      day: 'numeric',
      month: 'short',
      year: 'numeric',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
      timeZoneName: 'short',
    }).formatToParts(instant);
    const part = (type: Intl.DateTimeFormatPartTypes): string => parts.find((one) => one.type === type)?.value ?? '';
    return `${part('weekday')} ${part('day')} ${part('month')} ${part('year')}, ${part('hour')}:${part('minute')} ${part('timeZoneName')}`;
  };
  try {
    return written(site.timeZone);
  } catch {
    return written('UTC');
  }
}
