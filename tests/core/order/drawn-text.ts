import { typeset } from '../../../src/core/letters/typeset.ts';
import type { Hand } from '../../../src/core/letters/hand.ts';
import type { DrawnLetter } from '../../../src/core/letters/drawn-letter.ts';
import type { PlanOptions } from '../../../src/core/plan/plan-text.ts';
import { turnRadiusMetres } from '../../../src/core/paths/turn.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { metresPerSecondFromMilesPerHour } from '../../../src/core/units/quantity.ts';

/** The ship of the targets: 120 mph, 45 degrees, run-in 4 s, letters of 1,200 m; 30 degrees a second of roll. */
export const TARGET_OPTIONS: Omit<PlanOptions, 'text' | 'textWidthMetres'> = {
  frame: { facingRadians: 0, middle: { airEastMetres: 0, airNorthMetres: 0 } },
  letterHeightMetres: 1200,
  trueAirspeedMetresPerSecond: metresPerSecondFromMilesPerHour(120),
  writingBankRadians: radiansFromDegrees(45),
  turningBankRadians: radiansFromDegrees(45),
  rollRateRadiansPerSecond: radiansFromDegrees(30),
  runInSeconds: 4,
  runOutSeconds: 1,
  letterOrder: 'reading',
  progress: 'into-wind',
  windFromRadians: radiansFromDegrees(270),
  oilKilogramsPerSecond: 0.1,
};

/** A text set as the app sets it, for the writing radius of {@link TARGET_OPTIONS}. */
export function drawnText(text: string, heightMetres = 1200, hand: Hand = 'quickest'): { letters: readonly DrawnLetter[]; widthMetres: number } {
  const turnRadius = turnRadiusMetres(TARGET_OPTIONS.trueAirspeedMetresPerSecond, TARGET_OPTIONS.writingBankRadians);
  const setting = typeset(text, { heightMetres, turnRadiusMetres: turnRadius, hand });
  if (!setting.ok) return { letters: [], widthMetres: 0 };
  return { letters: setting.layout.letters, widthMetres: setting.layout.widthMetres };
}

export function optionsFor(text: string, changes: Partial<PlanOptions> = {}): PlanOptions {
  const { widthMetres } = drawnText(text);
  return { ...TARGET_OPTIONS, text, textWidthMetres: widthMetres, ...changes };
}
