import { cleanName } from '../text/clean-name.ts';
import { type IgcExtension, igcExtensionsFrom, igcFixFrom } from './igc-record.ts';
import { type RawRecording, tracksFromRecordings } from './raw-points.ts';
import { createReadFaults } from '../text/read-faults.ts';
import { type HeightsAbove, type ReadResult, type TrackPoint, type TracksRead } from './track.ts';
import { trackTextFrom } from './track-text.ts';
import { daysFromCivil, millisecondsFromRfc3339 } from '../text/utc.ts';

const DAY_MILLISECONDS = 86_400_000;
const HALF_DAY_MILLISECONDS = DAY_MILLISECONDS / 2;
const DATE = /^H[A-Z]DTE(?:DATE)?[:\s]*(\d\d)(\d\d)(\d\d)/;
const SMOKE = /^LXXXSMOKE (\S+) (ON|OFF)$/;

interface SmokeMark {
  readonly timeMilliseconds: number;
  readonly smoke: 'on' | 'off';
}

/** A recording as it grows; a second A record begins another one. */
interface Growing {
  name: string;
  points: GrowingPoint[];
  segmentStarts: number[];
  dayMilliseconds: number | null;
  lastMilliseconds: number | null;
  geoid: HeightsAbove;
  extensions: readonly IgcExtension[];
  marks: SmokeMark[];
}

interface GrowingPoint {
  readonly point: TrackPoint;
  readonly pressureMetres: number | null;
}

/**
 * Tracks of an IGC file (FAI technical specification for GNSS flight recorders, appendix A): A, H, I, B and the
 * smoke marks that {@link writeIgc} leaves in L records. Fixes with `V` (no three-dimensional position) keep their
 * place without a height. A clock that falls by more than half a day has passed midnight; a new date record begins a
 * new day. Heights are the receiver's, or the pressure's where it gave none in the whole flight.
 *
 * The published line `B1101355206343N00006198WA0058700558` is 11:01:35, 52.105717 N, 0.103300 W, 558 m.
 *
 * Refused with a reason: not text, empty, over 48 MB, no A record, no date before the first fix, no fixes, more than
 * 1 % of the fixes unreadable. A line torn off at the end is left out with a warning.
 */
export function readIgc(input: unknown): ReadResult<TracksRead> {
  const whole = trackTextFrom(input);
  if (!whole.ok) return whole;
  const lines = whole.value.split(/\r\n|\n|\r/);
  const faults = createReadFaults();
  const recordings: Growing[] = [];
  let current: Growing | null = null;
  let index = 0;
  for (const line of lines) {
    index += 1;
    if (/^A[A-Z0-9]{3}/.test(line)) {
      current = begun(recordings.length);
      recordings.push(current);
      continue;
    }
    if (current === null) {
      if (line.trim() === '') continue;
      return { ok: false, reason: `Line ${index}: an IGC file begins with an A record naming the recorder; this begins otherwise.` };
    }
    const reason = take(line, current);
    if (reason === 'no-date') return { ok: false, reason: `Line ${index}: a fix comes before the flight's date (HFDTE), so its day is not known.` };
    if (reason !== null) faults.add(index, reason);
  }
  const refusal = faults.refusal(recordings.reduce((sum, { points }) => sum + points.length, 0));
  if (refusal !== null) return { ok: false, reason: refusal };
  return tracksFromRecordings(recordings.map(finished), faults.warnings());
}

function begun(index: number): Growing {
  return {
    name: `Flight ${index + 1}`,
    points: [],
    segmentStarts: [0],
    dayMilliseconds: null,
    lastMilliseconds: null,
    geoid: 'ellipsoid',
    extensions: [],
    marks: [],
  };
}

/** Takes one line in; returns why a fix could not be read, null when there was none or it could. */
function take(line: string, recording: Growing): string | null {
  const kind = line[0];
  if (kind === 'B') return takeFix(line, recording);
  if (kind === 'I') {
    recording.extensions = igcExtensionsFrom(line);
  } else if (kind === 'H') {
    takeHeader(line, recording);
  } else if (kind === 'L') {
    const mark = SMOKE.exec(line.trim());
    const timeMilliseconds = mark?.[1] === undefined ? null : millisecondsFromRfc3339(mark[1]);
    if (mark !== null && timeMilliseconds !== null) recording.marks.push({ timeMilliseconds, smoke: mark[2] === 'ON' ? 'on' : 'off' });
  }
  return null;
}

function takeHeader(line: string, recording: Growing): void {
  const date = DATE.exec(line);
  const value = line.slice(line.indexOf(':') + 1);
  if (date !== null) {
    const shortYear = Number(date[3]);
    // Recorders are younger than 1980, so two digits tell the century.
    const dayMilliseconds = daysFromCivil(shortYear >= 80 ? 1900 + shortYear : 2000 + shortYear, Number(date[2]), Number(date[1])) * DAY_MILLISECONDS;
    if (recording.dayMilliseconds !== dayMilliseconds) recording.lastMilliseconds = null;
    recording.dayMilliseconds = dayMilliseconds;
  } else if (/^H[A-Z]GID/.test(line) && cleanName(value) !== '') {
    recording.name = cleanName(value);
  } else if (/^H[A-Z]ALG/.test(line)) {
    recording.geoid = /GEO/.test(value) ? 'sea' : /ELL/.test(value) ? 'ellipsoid' : 'unknown';
  }
}

function takeFix(line: string, recording: Growing): string | null {
  const fix = igcFixFrom(line, recording.extensions);
  if (typeof fix === 'string') return fix;
  if (recording.dayMilliseconds === null) return 'no-date';
  let timeMilliseconds = recording.dayMilliseconds + fix.ofDayMilliseconds;
  if (recording.lastMilliseconds !== null && recording.lastMilliseconds - timeMilliseconds > HALF_DAY_MILLISECONDS) {
    recording.dayMilliseconds += DAY_MILLISECONDS;
    timeMilliseconds += DAY_MILLISECONDS;
  }
  recording.lastMilliseconds = timeMilliseconds;
  const { latitudeDegrees, longitudeDegrees } = fix;
  recording.points.push({
    point: { timeMilliseconds, latitudeDegrees, longitudeDegrees, heightMetres: fix.receiverHeightMetres, smoke: null },
    pressureMetres: fix.pressureHeightMetres,
  });
  return null;
}

function finished(recording: Growing): RawRecording {
  const byPressure =
    recording.points.every(({ point }) => (point.heightMetres ?? 0) === 0) && recording.points.some(({ pressureMetres }) => pressureMetres !== null);
  const marks = recording.marks.toSorted((one, other) => one.timeMilliseconds - other.timeMilliseconds);
  let at = 0;
  const points = recording.points.map(({ point, pressureMetres }) => {
    // Points out of order go back over the marks; a recorder that does so is rare and the walk is short.
    if (at > 0 && (marks[at - 1]?.timeMilliseconds ?? 0) > point.timeMilliseconds) at = 0;
    while ((marks[at]?.timeMilliseconds ?? Infinity) <= point.timeMilliseconds) at += 1;
    return { ...point, heightMetres: byPressure ? pressureMetres : point.heightMetres, smoke: at === 0 ? null : (marks[at - 1]?.smoke ?? null) };
  });
  return { name: recording.name, heightsAbove: byPressure ? 'pressure' : recording.geoid, points, segmentStarts: recording.segmentStarts };
}
