import type { JobWind } from './job.ts';
import { decodeWindGroup } from './winds-aloft-group.ts';

/**
 * The winds and temperatures aloft bulletin as FAA AC 00-45H, 5.13.1, publishes it. Groups are placed by COLUMN, each
 * ending under or before the last digit of its height: blanks (no wind within 1,500 ft of the station's elevation)
 * shift words, not columns.
 */

/** One height of one station; through 12,000 ft true altitude, from 18,000 ft pressure altitude. */
export interface WindsAloftRow extends JobWind {
  /** The code ends at 199 kt: the speed is that or more. */
  readonly orMore: boolean;
}

export interface WindsAloftStation {
  readonly station: string;
  readonly rows: readonly WindsAloftRow[];
  /** Heights the bulletin has, and this station does not. */
  readonly missingFeet: readonly number[];
}

/** An instant as the bulletin writes it, `DDHHMMZ`. */
export interface BulletinTime {
  readonly dayOfMonth: number;
  readonly minuteOfDay: number;
}

export interface WindsAloftBulletin {
  readonly basedOn: BulletinTime | null;
  readonly valid: BulletinTime | null;
  /** Minutes of the day, UTC; the end may lie past midnight and then is smaller than the beginning. */
  readonly use: { readonly fromMinuteOfDay: number; readonly toMinuteOfDay: number } | null;
  /** Above this no sign is printed and every temperature is negative. */
  readonly unsignedAboveFeet: number;
  readonly stations: readonly WindsAloftStation[];
}

export type WindsAloft =
  | { readonly ok: true; readonly bulletin: WindsAloftBulletin }
  /** `lineNumber` and `columnNumber` count from 1; null where the whole text is meant. */
  | { readonly ok: false; readonly reason: string; readonly lineNumber: number | null; readonly columnNumber: number | null };

const LONGEST_CHARACTERS = 200_000;
const UNSIGNED_ABOVE_FEET = 24_000;

interface Level {
  readonly altitudeFeet: number;
  /** Index of the height's last digit in its line. */
  readonly lastIndex: number;
}

interface Word {
  readonly text: string;
  readonly index: number;
}

/**
 * The bulletin in a pasted text, or why not, with the line and column to look at.
 *
 * Worked (AC 00-45H, table 5-18): `MKC 9900 1709+06 ...` is light and variable at 3,000 ft and 170 degrees true,
 * 9 kt, 6 C at 6,000 ft; `750252` at 39,000 ft is 250 degrees, 102 kt, -52 C.
 */
export function parseWindsAloft(text: unknown): WindsAloft {
  if (typeof text !== 'string') return failure('the winds are not text');
  if (text.length > LONGEST_CHARACTERS) {
    return failure(`the text is ${text.length} characters long; a bulletin has under ${LONGEST_CHARACTERS}. Paste one bulletin`);
  }
  // Replacements keep the length, and so the columns.
  const lines = text
    .toUpperCase()
    .replaceAll(/[\u2212\u2013\u2010]/g, '-')
    .replaceAll('\u00a0', ' ')
    .split(/\r\n|\r|\n/);
  let basedOn: BulletinTime | null = null;
  let valid: BulletinTime | null = null;
  let use: WindsAloftBulletin['use'] = null;
  let unsignedAboveFeet = UNSIGNED_ABOVE_FEET;
  let levels: Level[] | null = null;
  const stations: WindsAloftStation[] = [];

  for (const [lineIndex, line] of lines.entries()) {
    const words = wordsOf(line);
    const first = words[0];
    if (first === undefined) continue;
    if (first.text === 'FT') {
      if (levels !== null) return failure('a second line of heights begins here; paste one bulletin at a time', lineIndex, first.index);
      const found = levelsOf(words.slice(1), lineIndex);
      if (!Array.isArray(found)) return found;
      levels = found;
    } else if (levels === null) {
      const based = /DATA BASED ON\s+(\S+)/.exec(line);
      const period = /VALID\s+(\S+)/.exec(line);
      if (based !== null) {
        basedOn = timeOf(based[1]);
        if (basedOn === null) return failure(`"${based[1]}" is not a time like 010000Z`, lineIndex, line.indexOf(based[1] ?? ''));
      }
      if (period !== null) {
        valid = timeOf(period[1]);
        if (valid === null) return failure(`"${period[1]}" is not a time like 010600Z`, lineIndex, line.indexOf(period[1] ?? ''));
      }
      use = useOf(line) ?? use;
      unsignedAboveFeet = Number(/TEMPS NEG ABV\s+(\d{4,5})/.exec(line)?.[1] ?? unsignedAboveFeet);
    } else if (/^(\$\$|NNNN|=)/.test(first.text)) {
      break;
    } else if (/^(DATA|VALID)$/.test(first.text)) {
      return failure('a second bulletin begins here; paste one bulletin at a time', lineIndex, first.index);
    } else {
      const station = stationOf(line, words, levels, unsignedAboveFeet, lineIndex);
      if (!('station' in station)) return station;
      stations.push(station);
    }
  }
  if (levels === null) return failure('there is no line of heights (it begins FT 3000 6000 9000); paste the bulletin with its heading');
  if (stations.length === 0) return failure('there is no station below the line of heights');
  return { ok: true, bulletin: { basedOn, valid, use, unsignedAboveFeet, stations } };
}

function levelsOf(words: readonly Word[], lineIndex: number): Level[] | (WindsAloft & { ok: false }) {
  const levels: Level[] = [];
  for (const { text, index } of words) {
    const altitudeFeet = /^\d{4,5}$/.test(text) ? Number(text) : NaN;
    const lowerFeet = levels.at(-1)?.altitudeFeet ?? 0;
    if (!(altitudeFeet > lowerFeet)) return failure(`"${text}" is not a height above ${lowerFeet} ft`, lineIndex, index);
    levels.push({ altitudeFeet, lastIndex: index + text.length - 1 });
  }
  return levels.length === 0 ? failure('the line of heights is empty', lineIndex, 0) : levels;
}

function stationOf(
  line: string,
  words: readonly Word[],
  levels: readonly Level[],
  unsignedAboveFeet: number,
  lineIndex: number,
): WindsAloftStation | (WindsAloft & { ok: false }) {
  const [name, ...groups] = words;
  if (name === undefined || !/^[A-Z][A-Z0-9]{2,3}$/.test(name.text)) {
    return failure(`"${name?.text ?? line}" is not a station's three or four letters`, lineIndex, name?.index ?? 0);
  }
  if (groups.length > levels.length) {
    return failure(`${name.text} has ${groups.length} groups for ${levels.length} heights`, lineIndex, groups[levels.length]?.index ?? 0);
  }
  const rows: WindsAloftRow[] = [];
  for (const [position, { text, index }] of groups.entries()) {
    // As many groups as heights leaves no doubt, whatever happened to the spacing.
    const level = groups.length === levels.length ? levels[position] : levelAt(levels, index, text.length);
    if (level === undefined) {
      return failure(
        `the group ${text} stands under no single height, and ${name.text} has ${groups.length} groups for ${levels.length} ` +
          'heights, so its blanks cannot be placed; paste the bulletin with its spacing kept, or type the rows',
        lineIndex,
        index,
      );
    }
    if (rows.at(-1)?.altitudeFeet === level.altitudeFeet) {
      return failure(`${name.text} has two groups under ${level.altitudeFeet} ft; paste the bulletin with its spacing kept`, lineIndex, index);
    }
    const decoded = decodeWindGroup(text, level.altitudeFeet > unsignedAboveFeet);
    if (!decoded.ok) return failure(`${name.text} at ${level.altitudeFeet} ft: ${decoded.reason}`, lineIndex, index);
    rows.push({ altitudeFeet: level.altitudeFeet, ...decoded.wind });
  }
  const missingFeet = levels.map((level) => level.altitudeFeet).filter((feet) => !rows.some((row) => row.altitudeFeet === feet));
  return { station: name.text, rows, missingFeet };
}

/** A height's columns run from behind the height before it to its own last digit. */
function levelAt(levels: readonly Level[], index: number, lengthCharacters: number): Level | undefined {
  return levels.find((level, position) => {
    const before = levels[position - 1]?.lastIndex ?? -1;
    return index > before && index + lengthCharacters - 1 <= level.lastIndex;
  });
}

function timeOf(text: string | undefined): BulletinTime | null {
  const match = /^(\d{2})(\d{2})(\d{2})Z?\.?$/.exec(text ?? '');
  const [dayOfMonth, hour, minute] = (match ?? []).slice(1).map(Number);
  if (dayOfMonth === undefined || hour === undefined || minute === undefined) return null;
  if (dayOfMonth < 1 || dayOfMonth > 31 || hour > 24 || minute > 59) return null;
  return { dayOfMonth, minuteOfDay: hour * 60 + minute };
}

function useOf(line: string): WindsAloftBulletin['use'] {
  const match = /FOR USE\s+([01]\d|2[0-4])([0-5]\d)-([01]\d|2[0-4])([0-5]\d)Z/.exec(line);
  const [fromHour, fromMinute, toHour, toMinute] = (match ?? []).slice(1).map(Number);
  if (fromHour === undefined || fromMinute === undefined || toHour === undefined || toMinute === undefined) return null;
  return { fromMinuteOfDay: fromHour * 60 + fromMinute, toMinuteOfDay: toHour * 60 + toMinute };
}

function wordsOf(line: string): Word[] {
  return [...line.matchAll(/\S+/g)].map((match) => ({ text: match[0], index: match.index }));
}

function failure(what: string, lineIndex?: number, columnIndex?: number): WindsAloft & { ok: false } {
  if (lineIndex === undefined || columnIndex === undefined) {
    return { ok: false, reason: what, lineNumber: null, columnNumber: null };
  }
  const lineNumber = lineIndex + 1;
  const columnNumber = columnIndex + 1;
  return { ok: false, reason: `line ${lineNumber}, column ${columnNumber}: ${what}`, lineNumber, columnNumber };
}
