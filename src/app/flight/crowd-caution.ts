import type { WordStanding } from '../../core/guidance/hanging/word-standing.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { degreesFromRadians } from '../../core/units/angle.ts';

/** A word that leans by more than this, or stands farther than this from its place, is never silent. */
const LEANING_DEGREES = 10;
const OFF_METRES = 1500;

/** What the crowd will not like of the word as it is going to stand, in the chosen unit of distance; null when nothing. */
export function crowdCaution(standing: WordStanding, { distance }: UnitText): string | null {
  if (standing.beforeSmoke && standing.forbidden !== undefined) return forbiddenCaution(standing);
  if (!standing.willRead) return 'WORD WILL NOT READ';
  const lean = Math.abs(degreesFromRadians(standing.leanRadians));
  const off = standing.offMetres > OFF_METRES ? `${distance.number(standing.offMetres)} ${distance.unit.replace('statute ', '').toUpperCase()} OFF` : '';
  const leaning = lean > LEANING_DEGREES ? `LEAN ${lean.toFixed(0)}°` : '';
  return off === '' && leaning === '' ? null : `WORD ${[off, leaning].filter((each) => each !== '').join(', ')}`;
}

/** Where the best place is forbidden the pilot chooses: write with these figures, hold for another hour, or knock it off. */
function forbiddenCaution(standing: WordStanding): string {
  const { leanRadians, seen, forbidden } = standing;
  const lean = Math.abs(degreesFromRadians(leanRadians)).toFixed(0);
  const elevation = degreesFromRadians(seen.elevationRadians).toFixed(0);
  return `${forbidden === 'nowhere' ? 'NO PLACE ALLOWED' : 'BEST PLACE FORBIDDEN'}: ${standing.willRead ? '' : 'WILL NOT READ, '}LEAN ${lean}°, ${elevation}° HIGH. WRITE, HOLD OR KNOCK IT OFF`;
}
