import { igcAngleText, igcHeightText } from './igc-record.ts';
import type { Track, TrackPoint } from './track.ts';
import { rfc3339FromMilliseconds, utcPartsFrom } from '../text/utc.ts';

/** Appended to each fix from character 36 on: two more digits of each minute, three of the second. */
const EXTENSIONS = 'I033637LAD3839LOD4042TDS';

/**
 * IGC text of one flight (FAI technical specification for GNSS flight recorders, appendix A), lines ending in CR LF.
 * The maker's code is XXX, which stands for recorders nobody approved, and there is no G record: the file proves
 * nothing to a sporting authority and does not pretend to. Positions are exact to 2 cm and a millisecond through the
 * LAD, LOD and TDS fields; smoke stands in L records, as `LXXXSMOKE 2026-06-20T10:00:00Z ON`.
 *
 * @param recorder who wrote the file, plain letters
 * @throws RangeError for a track without points
 */
export function writeIgc(track: Track, recorder: string): string {
  const first = track.points[0];
  if (first === undefined) throw new RangeError('points must not be empty');
  const heightsByPressure = track.heightsAbove === 'pressure';
  const lines = [
    `AXXX001 ${plain(recorder)}`,
    `HFDTE${dateText(first.timeMilliseconds)}`,
    'HFFXA050',
    'HFPLTPILOTINCHARGE:',
    'HFGTYGLIDERTYPE:',
    `HFGIDGLIDERID:${plain(track.name)}`,
    'HFDTM100GPSDATUM:WGS-84',
    `HFFTYFRTYPE:${plain(recorder)}`,
    `HFALGALTGPS:${track.heightsAbove === 'sea' ? 'GEO' : track.heightsAbove === 'ellipsoid' ? 'ELL' : 'NKN'}`,
    `HFALPALTPRESSURE:${heightsByPressure ? 'ISA' : 'NIL'}`,
    EXTENSIONS,
  ];
  let smoke: TrackPoint['smoke'] = null;
  for (const point of track.points) {
    if (point.smoke !== null && point.smoke !== smoke) {
      lines.push(`LXXXSMOKE ${rfc3339FromMilliseconds(point.timeMilliseconds)} ${point.smoke.toUpperCase()}`);
      smoke = point.smoke;
    }
    lines.push(fixText(point, heightsByPressure));
  }
  return `${lines.join('\r\n')}\r\n`;
}

function fixText(point: TrackPoint, heightsByPressure: boolean): string {
  const { hour, minute, second, millisecond } = utcPartsFrom(point.timeMilliseconds);
  const latitude = igcAngleText(point.latitudeDegrees, 2);
  const longitude = igcAngleText(point.longitudeDegrees, 3);
  const height = point.heightMetres === null ? '00000' : igcHeightText(point.heightMetres);
  const time = [hour, minute, second].map((part) => String(part).padStart(2, '0')).join('');
  const place = `${latitude.base}${point.latitudeDegrees < 0 ? 'S' : 'N'}${longitude.base}${point.longitudeDegrees < 0 ? 'W' : 'E'}`;
  const validity = point.heightMetres === null || heightsByPressure ? 'V' : 'A';
  const heights = heightsByPressure ? `${height}00000` : `00000${height}`;
  return `B${time}${place}${validity}${heights}${latitude.appended}${longitude.appended}${String(millisecond).padStart(3, '0')}`;
}

function dateText(timeMilliseconds: number): string {
  const { year, month, day } = utcPartsFrom(timeMilliseconds);
  return [day, month, year % 100].map((part) => String(part).padStart(2, '0')).join('');
}

/** The characters an IGC line may hold (specification, A 2: printable ASCII without $ * ! \ ^ ~ and the comma). */
function plain(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[^\u0020-\u007D]|[$*!\\^,]/g, '')
    .slice(0, 60);
}
