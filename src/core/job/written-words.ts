import type { Job } from './job.ts';

/** What a job writes in words: its text, else the names of its drawings. */
export function writtenWords({ text, drawings }: Pick<Job, 'text' | 'drawings'>): string {
  return text.trim() === '' && drawings.length > 0 ? drawings.map(({ name }) => name).join(', ') : text;
}
