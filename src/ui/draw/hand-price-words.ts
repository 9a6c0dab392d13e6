import type { Plan } from '../../core/plan/plan.ts';
import type { ReadingWindow } from '../../core/sky/reading-window.ts';
import { formatDuration } from '../../core/text/number-formats.ts';
import type { UnitText } from '../../core/text/unit-text.ts';
import { readsFor } from '../words/reads-text.ts';

/** `3:20, 55 lb of oil, reads for 7 to 33 min`: what the words take in a hand, and how long they read by the same range as everywhere. */
export function handPriceWords({ durationSeconds, ships }: Pick<Plan, 'durationSeconds' | 'ships'>, window: ReadingWindow, { mass }: UnitText): string {
  const oilKilograms = ships.reduce((sum, ship) => sum + ship.oilKilograms, 0);
  return `${formatDuration(durationSeconds)}, ${mass.text(oilKilograms)} of oil, ${window.until.highSeconds > window.fromSeconds ? `reads ${readsFor(window)}` : 'never reads as a whole'}`;
}
