import type { JobCloud, JobConditions } from '../job/job.ts';
import { METRES_PER_STATUTE_MILE } from '../units/quantity.ts';
import { HECTOPASCALS_PER_INCH_OF_MERCURY } from '../units/unit-kinds.ts';
import { type LineLeft, NO_CONDITIONS, type ReadHour, type WindReadingResult } from './wind-reading.ts';

/** Eighths that stand for the words of ICAO Annex 3, appendix 3, 4.5.4.3: FEW 1 to 2, SCT 3 to 4, BKN 5 to 7, OVC 8; the more of each. */
const OKTAS: Readonly<Record<string, number>> = { FEW: 2, SCT: 4, BKN: 7, OVC: 8 };

/** What an automatic report says at most, statute miles; P6SM, 9999 and CAVOK are as open: so far and farther, which is no haze. */
const MOST_MILES = 10;

const UNCHANGED = Symbol('unchanged');

interface Part {
  visibilityStatuteMiles: number | null | typeof UNCHANGED;
  clouds: JobCloud[] | null | typeof UNCHANGED;
  altimeterHectopascals: number | typeof UNCHANGED;
}

const NOTHING_SAID: Readonly<Part> = { visibilityStatuteMiles: UNCHANGED, clouds: UNCHANGED, altimeterHectopascals: UNCHANGED };

/**
 * Visibility, clouds and altimeter setting of a METAR or TAF (ICAO Annex 3; visibility in metres or statute miles, the
 * setting in hectopascals, Q1013, or hundredths of an inch of mercury, A2992). Bases count from the
 * aerodrome: its elevation is added. Of a TAF the hours it begins, FM and BECMG are taken; TEMPO and PROB are named.
 *
 * @param aerodromeFeet elevation above mean sea level
 * @param instantOf the instant of a day of the month, hour and minute that names no month
 */
export function readAerodromeWeather(
  text: string,
  aerodromeFeet: number,
  instantOf: (dayOfMonth: number, hour: number, minute: number) => number,
): WindReadingResult {
  const plain = text
    .toUpperCase()
    .replaceAll('=', ' ')
    .replace(/(\d)\s+(\d\/\dSM)/g, '$1_$2');
  const isTaf = /^\s*TAF\b/.test(plain) || /\b\d{4}\/\d{4}\b/.test(plain);
  const groups = plain.split(/\s+/).filter((group) => group !== '');
  const station =
    groups.find((group) => /^[A-Z]{4}$/.test(group) && !['AUTO', 'METAR', 'SPECI', 'NOSIG', 'TEMPO', 'PROB', 'BECMG', 'CAVOK'].includes(group)) ?? '';
  const issued = timeOf(
    groups.find((group) => /^\d{6}Z$/.test(group)),
    instantOf,
  );
  if (issued === null || station === '') return { ok: false, reason: 'four letters of the aerodrome and a time like 191530Z are missing' };
  const hours: ReadHour[] = [];
  const left: LineLeft[] = [];
  let conditions: JobConditions = { ...NO_CONDITIONS };
  let validMilliseconds = issued;
  let part: Part = { ...NOTHING_SAID };
  let skipped: string[] | null = null;
  let skipsWord = '';
  let isOpen = false;
  const close = (): void => {
    if (skipped !== null) {
      left.push({ lineNumber: 1, text: [skipsWord, ...skipped].join(' ').slice(0, 80), reason: 'for a time, or likely: look at it yourself' });
      skipped = null;
      return;
    }
    isOpen ||= part.visibilityStatuteMiles === null;
    if (Object.values(part).every((value) => value === UNCHANGED)) return;
    conditions = {
      visibilityStatuteMiles: part.visibilityStatuteMiles === UNCHANGED ? conditions.visibilityStatuteMiles : part.visibilityStatuteMiles,
      clouds: part.clouds === UNCHANGED ? conditions.clouds : (part.clouds?.slice(0, 8) ?? null),
      altimeterHectopascals: part.altimeterHectopascals === UNCHANGED ? conditions.altimeterHectopascals : part.altimeterHectopascals,
    };
    hours.push({ place: station, validMilliseconds, issuedMilliseconds: issued, winds: [], conditions });
    part = { ...NOTHING_SAID };
  };
  const setValid = (group: string, day = '', hour = '', minute = ''): void => {
    const instant = timeOf(`${day}${hour}${minute}Z`, instantOf);
    if (instant === null) left.push({ lineNumber: 1, text: group, reason: 'no day and hour' });
    else validMilliseconds = instant;
  };
  for (const group of groups) {
    const from = /^FM(\d\d)(\d\d)(\d\d)$/.exec(group);
    const period = /^(\d\d)(\d\d)\/(\d\d)(\d\d)$/.exec(group);
    if (from !== null || /^(TEMPO|INTER|BECMG|PROB\d\d|NOSIG|RMK)$/.test(group)) {
      close();
      if (group === 'RMK' || group === 'NOSIG') break;
      if (from !== null) {
        // A new beginning forgets what was before it.
        conditions = { ...NO_CONDITIONS, altimeterHectopascals: conditions.altimeterHectopascals };
        setValid(group, from[1], from[2], from[3]);
      } else if (group !== 'BECMG' || !isTaf) {
        skipped = [];
        skipsWord = group;
      }
      continue;
    }
    if (period !== null) {
      if (skipped !== null) skipped.push(group);
      else setValid(group, period[1], period[2], '00');
      continue;
    }
    if (skipped !== null) skipped.push(group);
    else readGroup(group, part, aerodromeFeet);
  }
  close();
  if (hours.length === 0) return { ok: false, reason: 'neither visibility nor cloud can be read in it' };
  return {
    ok: true,
    reading: {
      kind: isTaf ? 'TAF' : 'METAR',
      hours,
      left,
      notes: [
        `Cloud bases are taken above the aerodrome, with ${Math.round(aerodromeFeet)} ft as its elevation. Tops are not reported.`,
        ...(isOpen ? ['9999, CAVOK, P6SM and 10SM say how far one sees at least, not how far: visibility stays as it is entered.'] : []),
      ],
    },
  };
}

function readGroup(group: string, part: Part, aerodromeFeet: number): void {
  if (group === 'CAVOK') {
    // No cloud below 5,000 ft says nothing of the layer: clouds stay as nobody has looked.
    part.visibilityStatuteMiles = null;
    part.clouds = null;
    return;
  }
  if (/^(SKC|CLR|NCD|NSC)$/.test(group)) {
    part.clouds = group === 'SKC' ? [] : null;
    return;
  }
  const setting = /^(?:Q(\d{4})|(?:QNH)?A?(\d{4})(?:INS)?)$/.exec(/^\d/.test(group) ? '' : group);
  const hectopascals =
    setting === null ? Number.NaN : setting[1] === undefined ? (Number(setting[2]) / 100) * HECTOPASCALS_PER_INCH_OF_MERCURY : Number(setting[1]);
  if (hectopascals >= 850 && hectopascals <= 1100) {
    part.altimeterHectopascals = Math.round(10 * hectopascals) / 10;
    return;
  }
  const metres = /^(\d{4})(?:NDV)?$/.exec(group);
  if (metres !== null) {
    part.visibilityStatuteMiles = Number(metres[1]) === 9999 ? null : Math.max(0.1, Number(metres[1]) / METRES_PER_STATUTE_MILE);
    return;
  }
  const miles = /^[PM]?(?:(\d{1,2})_)?(\d{1,2})(?:\/([1-9]))?SM$/.exec(group);
  if (miles !== null) {
    const [, whole = '0', top = '0', bottom] = miles;
    const reported = Number(whole) + Number(top) / Number(bottom ?? 1);
    part.visibilityStatuteMiles = group.startsWith('P') || reported === MOST_MILES ? null : Math.min(100, Math.max(0.1, reported));
    return;
  }
  const cloud = /^(FEW|SCT|BKN|OVC)(\d{3})(CB|TCU)?$/.exec(group);
  const vertical = /^VV(\d{3})$/.exec(group);
  if (cloud === null && vertical === null) return;
  if (part.clouds === UNCHANGED || part.clouds === null) part.clouds = [];
  const [hundreds, oktas] = cloud === null ? [Number(vertical?.[1]), 8] : [Number(cloud[2]), OKTAS[cloud[1] ?? ''] ?? 8];
  part.clouds.push({ baseFeet: Math.round(hundreds * 100 + aerodromeFeet), topFeet: null, oktas });
}

function timeOf(group: string | undefined, instantOf: (dayOfMonth: number, hour: number, minute: number) => number): number | null {
  const [, day, hour, minute] = /^(\d\d)(\d\d)(\d\d)Z$/.exec(group ?? '') ?? [];
  return day === undefined || Number(day) < 1 || Number(day) > 31 || Number(hour) > 24 || Number(minute) > 59
    ? null
    : instantOf(Number(day), Number(hour), Number(minute));
}
