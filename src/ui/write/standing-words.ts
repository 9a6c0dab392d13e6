import { formatBearing } from '../../core/text/number-formats.ts';
import type { Measure, UnitText } from '../../core/text/unit-text.ts';
import { askewWords, readsWords } from '../words/reads.ts';
import { utcText } from '../words/zoned-time.ts';
import type { WordStanding } from '../../core/guidance/hanging/word-standing.ts';
import { figuresFromWind } from '../../core/wire/hanging-figures.ts';
import { windFromVector } from '../../core/earth/wind-vector.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';
import { knotsFromMetresPerSecond } from '../../core/units/quantity.ts';

const POINTS = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'] as const;
/** Said on the radio for the other ships and the ground. */
function radioWords({ kind, beforeSmoke, forbidden, hungFor }: WordStanding): string {
  return kind === 'found-wind' && beforeSmoke && forbidden === undefined ? `; radio ${figuresFromWind(hungFor)}` : '';
}

/** Nobody sees a smaller lean. */
const LEVEL_DEGREES = 2;
const LEVEL = 'level';
/** Of the shown unit: less would be written as 0.0. */
const ON_ITS_PLACE = 0.05;

/**
 * One line of where the word hangs, or will stand, in the chosen unit of distance: "1.5 NM north-west for 098/22, reads 12:04 to
 * 12:11, perhaps 12:21 UTC, level, askew from 12:09". Empty before it is hung. Times are UTC.
 *
 * @param room on a small phone, and at a line, only the hours that are sure are said, not that it is level nor from when it is askew
 */
export function standingWords(standing: WordStanding | null, { distance }: UnitText, room: 'whole' | 'small' = 'whole'): string {
  if (standing === null) return '';
  const hung = standing.beforeSmoke ? hungWords(standing, distance) : offWords(standing.offMetres, distance);
  if (!standing.willRead) return `${hung}, will not read, ${leanWords(standing)}${radioWords(standing)}`;
  const at = clockOf(standing);
  const { lastSmokeAtSeconds, readsUntil, stands } = standing;
  const small = room === 'small';
  const askew = small ? '' : askewWords({ fromSeconds: lastSmokeAtSeconds, until: readsUntil, stands }, at);
  const sure = small && readsUntil.lowSeconds > lastSmokeAtSeconds;
  const reads = readsWords(lastSmokeAtSeconds, sure ? { ...readsUntil, highSeconds: readsUntil.lowSeconds } : readsUntil, at, 'UTC');
  const lean = leanWords(standing);
  return `${hung}, reads ${reads}${small && lean === LEVEL ? '' : `, ${lean}`}${askew === '' ? '' : `, ${askew}`}${radioWords(standing)}`;
}

/** " reads until 12:11, perhaps 12:21 UTC", after the word; empty while that is not known. Not until a moment before it was finished. */
export function readsUntilWords(standing: WordStanding | null): string {
  return standing === null || !standing.willRead
    ? ''
    : ` reads ${readsWords(null, { ...standing.readsUntil, lowSeconds: Math.max(standing.lastSmokeAtSeconds, standing.readsUntil.lowSeconds) }, clockOf(standing), 'UTC')}`;
}

function leanWords({ leanRadians }: WordStanding): string {
  const lean = Math.round(degreesFromRadians(leanRadians));
  return Math.abs(lean) <= LEVEL_DEGREES ? LEVEL : `leans ${Math.abs(lean)}°, ${lean > 0 ? 'right' : 'left'} end high`;
}

function clockOf({ wallAtZeroMilliseconds }: WordStanding): (atSeconds: number) => string {
  return (atSeconds) => utcText(wallAtZeroMilliseconds + 1000 * atSeconds).slice(11, 16);
}

/**
 * The machine value of the same: where the text's middle is promised to stand at the last smoke, metres east and north of the
 * site, and how many seconds later it is level: `-1240/3650/44`.
 */
export function hungValue(standing: WordStanding | null): string {
  return standing === null ? '' : [standing.promised.eastMetres, standing.promised.northMetres, standing.levelAfterSeconds].map(Math.round).join('/');
}

function hungWords({ kind, movedEastMetres, movedNorthMetres, wind, forbidden }: WordStanding, distance: Measure): string {
  if (forbidden === 'nowhere') return 'as briefed: no place is allowed for this wind';
  if (kind === 'as-briefed') return 'as briefed';
  if (kind === 'by-hand') return 'where you put it';
  const from = windFromVector(wind);
  const figures = `${formatBearing(degreesFromRadians(from.fromRadians))}/${Math.round(knotsFromMetresPerSecond(from.speedMetresPerSecond))}`;
  const bearing = degreesFromRadians(Math.atan2(movedEastMetres, movedNorthMetres));
  return `${distance.text(Math.hypot(movedEastMetres, movedNorthMetres), 1)} ${POINTS[(Math.round(bearing / 45) + 8) % 8] ?? ''} for ${figures}${forbidden === 'aside' ? ', aside of what is forbidden' : ''}`;
}

function offWords(metres: number, distance: Measure): string {
  return distance.of(metres) < ON_ITS_PLACE ? 'on its place' : `${distance.text(metres, 1)} off its place`;
}
