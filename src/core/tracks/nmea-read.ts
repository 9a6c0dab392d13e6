import { createNmeaReader } from './nmea-fixes.ts';
import { tracksFromRecordings } from './raw-points.ts';
import type { ReadResult, TrackPoint, TracksRead } from './track.ts';

/** A jump of time beyond this is a loss of reception. */
const GAP_MILLISECONDS = 5000;

/**
 * The track of a file of NMEA 0183 sentences. Without a date (RMC) in the file it is refused: nobody knows the day.
 */
export function readNmea(text: string): ReadResult<TracksRead> {
  if (!/\$..RMC,/.test(text)) return { ok: false, reason: 'The file holds NMEA sentences, but no RMC, which alone names the day.' };
  const reader = createNmeaReader();
  const points: TrackPoint[] = [];
  const segmentStarts: number[] = [];
  // The first date holds for what came before it.
  const fixes = reader.feed(`${text}\n`, 0);
  for (const { latitudeDegrees, longitudeDegrees, altitudeMetres, stampMilliseconds } of fixes) {
    if (stampMilliseconds === null || stampMilliseconds < DAY_AFTER_1970) continue;
    if (stampMilliseconds - (points.at(-1)?.timeMilliseconds ?? -Infinity) > GAP_MILLISECONDS) segmentStarts.push(points.length);
    points.push({ timeMilliseconds: stampMilliseconds, latitudeDegrees, longitudeDegrees, heightMetres: altitudeMetres, smoke: null });
  }
  const { garbage, talker } = reader.status();
  const warnings = garbage === 0 ? [] : [`${garbage} ${garbage === 1 ? 'line' : 'lines'} of the receiver were damaged and left out.`];
  return tracksFromRecordings([{ name: `Receiver ${talker}`, heightsAbove: 'sea', points, segmentStarts }], warnings);
}

const DAY_AFTER_1970 = 2 * 86_400_000;
