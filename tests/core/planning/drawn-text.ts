import { glyphAlternatives } from '../../../src/core/letters/alphabet.ts';
import { letterPathFromGlyph } from '../../../src/core/letters/glyph-path.ts';
import type { DrawnLetter } from '../../../src/core/planning/drawn-letter.ts';
import { type PlanOptions } from '../../../src/core/planning/plan-text.ts';
import { turnRadiusMetres } from '../../../src/core/planning/turn.ts';
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
  corners: 'best',
  windFromRadians: radiansFromDegrees(270),
  oilKilogramsPerSecond: 0.1,
};

/** Sets letters side by side, a fixed gap apart: enough of typesetting to plan with. */
export function drawnText(text: string, heightMetres = 1200, spacingHeights = 0.3): { letters: DrawnLetter[]; widthMetres: number } {
  const radiusHeights = turnRadiusMetres(TARGET_OPTIONS.trueAirspeedMetresPerSecond, TARGET_OPTIONS.writingBankRadians) / heightMetres;
  const letters: DrawnLetter[] = [];
  let xMetres = 0;
  [...text].forEach((character, letterIndex) => {
    const glyphs = glyphAlternatives(character, radiusHeights);
    if (glyphs.length === 0) {
      xMetres += 0.6 * heightMetres;
      return;
    }
    letters.push({
      letterIndex,
      character,
      alternatives: glyphs.map(({ style, strokes }) => ({
        style,
        strokes: strokes.map((stroke) => ({ path: letterPathFromGlyph(stroke, heightMetres, xMetres, -heightMetres / 2), closed: stroke.closed })),
      })),
    });
    xMetres += (glyphs[0]!.widthHeights + spacingHeights) * heightMetres;
  });
  return { letters, widthMetres: xMetres - spacingHeights * heightMetres };
}

export function optionsFor(text: string, changes: Partial<PlanOptions> = {}): PlanOptions {
  const { widthMetres } = drawnText(text);
  return { ...TARGET_OPTIONS, text, textWidthMetres: widthMetres, ...changes };
}
