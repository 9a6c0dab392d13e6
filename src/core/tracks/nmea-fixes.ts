import type { Fix } from '../tracking/fix.ts';
import { daysFromCivil } from '../text/utc.ts';
import { METRES_PER_NAUTICAL_MILE } from '../units/quantity.ts';
import { nmeaDayMilliseconds, nmeaDegrees, type NmeaSentence, nmeaSentence } from './nmea-sentence.ts';

/** What a stream of sentences has told so far. */
export interface NmeaStatus {
  /** Whose positions are used; empty before the first. */
  readonly talker: string;
  /** Fixes a second, over the last ten; null before that. */
  readonly ratePerSecond: number | null;
  readonly fixes: number;
  /** Lines that were no sentence, or whose checksum failed. */
  readonly garbage: number;
}

/** Makes fixes of the bytes of a receiver, in whatever pieces they come. */
export interface NmeaReader {
  /**
   * The fixes that the next piece of text completes, oldest first.
   *
   * @param nowMilliseconds the device's clock, for the day of sentences that name none
   */
  feed(text: string, nowMilliseconds: number): Fix[];
  status(): NmeaStatus;
}

const DAY_MILLISECONDS = 86_400_000;
const METRES_PER_SECOND_PER_KNOT = METRES_PER_NAUTICAL_MILE / 3600;
/** Of one pseudorange, one sigma, for a receiver of today; twice that by the dilution is taken for 95 % (common practice, no source). */
const RANGE_SIGMA_METRES = 4;
const UNKNOWN_ACCURACY_METRES = 20;
/** A talker that is silent for so long by the sentences' own time gives way to another. */
const TALKER_SILENT_MILLISECONDS = 2500;
const LONGEST_REST = 500;

interface Epoch {
  readonly dayMilliseconds: number;
  latitudeDegrees: number | null;
  longitudeDegrees: number | null;
  altitudeMetres: number | null;
  speed: number | null;
  track: number | null;
  gga: boolean;
  rmc: boolean;
}

/** A reader of GGA, RMC, VTG and GSA (NMEA 0183, IEC 61162-1). A fix leaves as soon as GGA and RMC of its time are there, or when the next time begins. */
export function createNmeaReader(): NmeaReader {
  let rest = '';
  let garbage = 0;
  let fixes = 0;
  let talker = '';
  let heardMilliseconds = -Infinity;
  let dateDays: number | null = null;
  let dilution: number | null = null;
  let epoch: Epoch | null = null;
  let sent = false;
  const stamps: number[] = [];

  const fixOf = (from: Epoch, nowMilliseconds: number): Fix | null => {
    if (from.latitudeDegrees === null || from.longitudeDegrees === null) return null;
    const today = Math.floor(nowMilliseconds / DAY_MILLISECONDS);
    const days =
      dateDays ??
      [today - 1, today, today + 1].reduce((best, day) =>
        Math.abs(day * DAY_MILLISECONDS + from.dayMilliseconds - nowMilliseconds) < Math.abs(best * DAY_MILLISECONDS + from.dayMilliseconds - nowMilliseconds)
          ? day
          : best,
      );
    const stampMilliseconds = days * DAY_MILLISECONDS + from.dayMilliseconds;
    // A receiver that repeats a time, or goes back, says nothing new.
    if (stampMilliseconds <= (stamps.at(-1) ?? -Infinity)) return null;
    stamps.push(stampMilliseconds);
    if (stamps.length > 11) stamps.shift();
    fixes += 1;
    return {
      latitudeDegrees: from.latitudeDegrees,
      longitudeDegrees: from.longitudeDegrees,
      accuracyMetres: dilution === null ? UNKNOWN_ACCURACY_METRES : Math.max(1, 2 * RANGE_SIGMA_METRES * dilution),
      altitudeMetres: from.altitudeMetres,
      groundSpeedMetresPerSecond: from.speed,
      trackDegrees: from.track,
      stampMilliseconds,
    };
  };

  const take = ({ talker: from, kind, fields }: NmeaSentence, nowMilliseconds: number, out: Fix[]): void => {
    const field = (index: number): string => fields[index] ?? '';
    if (kind === 'GSA') {
      dilution = numberIn(field(15), 0.1, 50) ?? dilution;
      return;
    }
    if (kind === 'VTG') {
      if (epoch === null || sent || from !== talker) return;
      epoch.track ??= numberIn(field(0), 0, 360);
      epoch.speed ??= scaled(numberIn(field(4), 0, 1000), METRES_PER_SECOND_PER_KNOT);
      return;
    }
    if (kind !== 'GGA' && kind !== 'RMC') return;
    const dayMilliseconds = nmeaDayMilliseconds(field(0));
    if (dayMilliseconds === null) return;
    const sinceHeard = dayMilliseconds - heardMilliseconds;
    if (from !== talker) {
      // Two talkers of one receiver tell the same time twice: the first heard is followed until it falls silent.
      if (talker !== '' && Math.abs(sinceHeard) < TALKER_SILENT_MILLISECONDS) return;
      talker = from;
      epoch = null;
    }
    heardMilliseconds = dayMilliseconds;
    if (epoch === null || epoch.dayMilliseconds !== dayMilliseconds) {
      flush(nowMilliseconds, out);
      epoch = { dayMilliseconds, latitudeDegrees: null, longitudeDegrees: null, altitudeMetres: null, speed: null, track: null, gga: false, rmc: false };
      sent = false;
    }
    if (kind === 'GGA') {
      epoch.gga = true;
      if (field(5) === '' || field(5) === '0') return;
      place(epoch, field(1), field(2), field(3), field(4));
      dilution = numberIn(field(7), 0.1, 50) ?? dilution;
      epoch.altitudeMetres = numberIn(field(8), -1000, 50_000);
    } else {
      epoch.rmc = true;
      dateDays = dateOf(field(8)) ?? dateDays;
      if (field(1) !== 'A') return;
      place(epoch, field(2), field(3), field(4), field(5));
      epoch.speed = scaled(numberIn(field(6), 0, 1000), METRES_PER_SECOND_PER_KNOT);
      epoch.track = numberIn(field(7), 0, 360);
    }
    if (epoch.gga && epoch.rmc) flush(nowMilliseconds, out);
  };

  const flush = (nowMilliseconds: number, out: Fix[]): void => {
    if (epoch === null || sent) return;
    const fix = fixOf(epoch, nowMilliseconds);
    if (fix !== null) out.push(fix);
    sent = true;
  };

  return {
    feed(text, nowMilliseconds) {
      const out: Fix[] = [];
      const lines = (rest + text).split(/\r\n|\n|\r/);
      rest = lines.pop() ?? '';
      // A stream that never ends its lines is no receiver.
      if (rest.length > LONGEST_REST) {
        garbage += 1;
        rest = '';
      }
      for (const line of lines) {
        if (line.trim() === '') continue;
        // Noise before a sentence does not spoil it.
        const start = line.lastIndexOf('$');
        const sentence = start < 0 ? null : nmeaSentence(line.slice(start));
        if (sentence === null) garbage += 1;
        else take(sentence, nowMilliseconds, out);
      }
      return out;
    },
    status() {
      const [first] = stamps;
      const last = stamps.at(-1);
      const ratePerSecond = first === undefined || last === undefined || stamps.length < 3 ? null : ((stamps.length - 1) * 1000) / (last - first);
      return { talker, ratePerSecond, fixes, garbage };
    },
  };
}

function place(epoch: Epoch, latitude: string, north: string, longitude: string, east: string): void {
  const latitudeDegrees = nmeaDegrees(latitude, north);
  const longitudeDegrees = nmeaDegrees(longitude, east);
  if (latitudeDegrees === null || longitudeDegrees === null || !'NS'.includes(north) || !'EW'.includes(east)) return;
  epoch.latitudeDegrees = latitudeDegrees;
  epoch.longitudeDegrees = longitudeDegrees;
}

function numberIn(text: string, least: number, most: number): number | null {
  const value = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  return value >= least && value <= most ? value : null;
}

const scaled = (value: number | null, factor: number): number | null => (value === null ? null : value * factor);

/** `230394` is 23 March 1994: days since 1970, of years 1980 to 2079; null for no date. */
function dateOf(text: string): number | null {
  const [, day, month, year] = /^(\d\d)(\d\d)(\d\d)$/.exec(text) ?? [];
  if (day === undefined || month === undefined || year === undefined || Number(day) < 1 || Number(day) > 31 || Number(month) < 1 || Number(month) > 12)
    return null;
  return daysFromCivil(Number(year) + (Number(year) < 80 ? 2000 : 1900), Number(month), Number(day));
}
