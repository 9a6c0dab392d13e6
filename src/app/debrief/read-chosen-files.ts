import type { ObserverLog } from '../../core/wire/observer-log.ts';
import { counted } from '../../core/text/counted.ts';
import { seenSmokeFromTrack } from '../../core/debrief/imported-log.ts';
import { readTrackFile, type TrackFile } from '../../workers/track-reader-client.ts';
import { newId } from '../new-id.ts';
import type { ImportedTrack } from './imported-tracks.ts';
import { observerLogsAmong } from './observer-logs-among.ts';

/** What some chosen files hold for the debrief of a job, or why none of them is taken. */
export type ChosenFiles =
  | { readonly ok: true; readonly logs: readonly ObserverLog[]; readonly tracks: readonly ImportedTrack[]; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly reasons: readonly string[] };

/** Reads tracks of any recorder and logs of observers, each by what is in it; all of them or none. Stores nothing. */
export async function readChosenFiles(jobId: string, chosen: readonly TrackFile[]): Promise<ChosenFiles> {
  const { logs, refused: refusedLogs, rest } = await observerLogsAmong(jobId, chosen);
  const readings = await Promise.all(rest.map(async (file) => ({ file, reading: await readTrackFile(file) })));
  const refused = [...refusedLogs, ...readings.flatMap(({ file, reading }) => (reading.ok ? [] : [`${file.name}: ${reading.reason}`]))];
  if (refused.length > 0) return { ok: false, reasons: [...refused, ...(chosen.length > 1 ? ['None of the files was taken.'] : [])] };
  return {
    ok: true,
    logs,
    tracks: readings.flatMap(({ reading }) =>
      (reading.ok ? reading.value.tracks : []).map((track): ImportedTrack => ({ id: newId(), track, shipIndex: null, seen: seenSmokeFromTrack(track) })),
    ),
    warnings: readings.flatMap(({ file, reading }) => (reading.ok ? reading.value.warnings.map((warning) => `${file.name}: ${warning}`) : [])),
  };
}

/** What the pilot is told of an observer's log that was taken in. */
export function importedLogWords({ observerName, entries }: ObserverLog): string {
  return `The log of ${observerName === '' ? 'an observer without a name' : observerName} was imported: ${counted(entries.length, 'entry', 'entries')}, laid beside the flight by the time since the first smoke.`;
}
