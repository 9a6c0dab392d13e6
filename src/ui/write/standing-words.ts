import { formatBearing } from '../../core/text/number-formats.ts';
import { utcText } from '../words/zoned-time.ts';
import { willRead } from '../../core/guidance/hanging/will-read.ts';
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

/**
 * One line of where the word hangs, or will stand: "2.8 km north-west for 098/22, reads 12:04 to 12:21, level". Empty before
 * it is hung. Times are UTC.
 */
export function standingWords(standing: WordStanding | null): string {
  if (standing === null) return '';
  const hung = standing.beforeSmoke ? hungWords(standing) : `${kilometres(standing.offMetres)} off its place`;
  const clock = (atSeconds: number): string => utcText(standing.wallAtZeroMilliseconds + 1000 * atSeconds).slice(11, 16);
  const reads = willRead(standing) ? `reads ${clock(standing.lastSmokeAtSeconds)} to ${clock(standing.readsUntilSeconds ?? NaN)} UTC` : 'will not read';
  const lean = Math.round(degreesFromRadians(standing.leanRadians));
  return `${hung}, ${reads}, ${Math.abs(lean) <= LEVEL_DEGREES ? 'level' : `leans ${Math.abs(lean)}°, ${lean > 0 ? 'right' : 'left'} end high`}${radioWords(standing)}`;
}

/** " reads until 12:21 UTC", after the word; empty while that is not known. */
export function readsUntilWords(standing: WordStanding | null): string {
  if (standing === null || !willRead(standing) || standing.readsUntilSeconds === null) return '';
  return ` reads until ${utcText(standing.wallAtZeroMilliseconds + 1000 * standing.readsUntilSeconds).slice(11, 16)} UTC`;
}

/**
 * The machine value of the same: where the text's middle is promised to stand at the last smoke, metres east and north of the
 * site, and how many seconds later it is level: `-1240/3650/44`.
 */
export function hungValue(standing: WordStanding | null): string {
  return standing === null ? '' : [standing.promised.eastMetres, standing.promised.northMetres, standing.levelAfterSeconds].map(Math.round).join('/');
}

function hungWords({ kind, movedEastMetres, movedNorthMetres, wind, forbidden }: WordStanding): string {
  if (forbidden === 'nowhere') return 'as briefed: no place is allowed for this wind';
  if (kind === 'as-briefed') return 'as briefed';
  if (kind === 'by-hand') return 'where you put it';
  const from = windFromVector(wind);
  const figures = `${formatBearing(degreesFromRadians(from.fromRadians))}/${Math.round(knotsFromMetresPerSecond(from.speedMetresPerSecond))}`;
  const bearing = degreesFromRadians(Math.atan2(movedEastMetres, movedNorthMetres));
  return `${kilometres(Math.hypot(movedEastMetres, movedNorthMetres))} ${POINTS[(Math.round(bearing / 45) + 8) % 8] ?? ''} for ${figures}${forbidden === 'aside' ? ', aside of what is forbidden' : ''}`;
}

function kilometres(metres: number): string {
  return `${(metres / 1000).toFixed(1)} km`;
}
