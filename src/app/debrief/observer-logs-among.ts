import type { ObserverLog } from '../../core/wire/observer-log.ts';
import { parseObserverLog } from '../../core/wire/parse-observer-log.ts';

/** Files of which some are observers' logs. */
export interface LogsAmong<Chosen> {
  readonly logs: readonly ObserverLog[];
  /** Why a log cannot be taken, in words, a line a file. */
  readonly refused: readonly string[];
  /** Files that are no observers' logs. */
  readonly rest: readonly Chosen[];
}

const FILE_LIMIT_BYTES = 1_000_000;

/** The observers' logs of a job among files that were chosen; told by what they hold, as they may bear any name. Never rejects. */
export async function observerLogsAmong<Chosen extends Pick<File, 'name' | 'size' | 'arrayBuffer'>>(
  jobId: string,
  files: readonly Chosen[],
): Promise<LogsAmong<Chosen>> {
  const logs: ObserverLog[] = [];
  const refused: string[] = [];
  const rest: Chosen[] = [];
  for (const file of files) {
    const bytes = file.size <= FILE_LIMIT_BYTES ? await file.arrayBuffer().catch(() => null) : null;
    const text = bytes === null ? '' : new TextDecoder().decode(bytes);
    if (!text.trimStart().startsWith('{') || !text.includes('"quillwind-observer"')) {
      rest.push(file);
      continue;
    }
    const reading = parseObserverLog(text);
    if (!reading.ok) refused.push(`${file.name}: ${reading.reason}`);
    else if (reading.value.jobId !== jobId)
      refused.push(`${file.name}: This log was written for another job. Open that job\u2019s Debrief and import it there.`);
    else logs.push(reading.value);
  }
  return { logs, refused, rest };
}
