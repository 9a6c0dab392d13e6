import type { Job } from '../../core/formats/job.ts';
import { glyphAlternatives } from '../../core/letters/alphabet.ts';
import { letterPathFromGlyph } from '../../core/letters/glyph-path.ts';
import { turnRadiusMetres } from '../../core/planning/turn.ts';
import { radiansFromDegrees } from '../../core/units/angle.ts';
import { metresFromFeet, metresPerSecondFromKnots } from '../../core/units/quantity.ts';
import { type PlanePath, planePathFromLetter } from '../parts/plane-path.ts';

const BLANK_HEIGHTS = 0.5;
/** What has no drawing leaves a gap of a letter, so that it is missed. */
const UNDRAWN_HEIGHTS = 0.6;

/** The strokes of a job's text in a row, in the letter frame, as the crowd will read them. */
export function writtenStrokes({ text, letters, ships }: Job): readonly PlanePath[] {
  const heightMetres = metresFromFeet(letters.heightFeet);
  const turnRadiusHeights = leadRadiusMetres(ships[0]) / heightMetres;
  const strokes: PlanePath[] = [];
  let xHeights = 0;
  for (const character of text.normalize('NFC')) {
    const glyph = character === ' ' ? undefined : glyphAlternatives(character, turnRadiusHeights)[0];
    for (const stroke of glyph?.strokes ?? []) strokes.push(planePathFromLetter(letterPathFromGlyph(stroke, heightMetres, xHeights * heightMetres, 0)));
    xHeights += (glyph?.widthHeights ?? (character === ' ' ? BLANK_HEIGHTS : UNDRAWN_HEIGHTS)) + letters.spacingHeights;
  }
  return strokes;
}

function leadRadiusMetres(lead: Job['ships'][number] | undefined): number {
  if (lead === undefined) return 300;
  return turnRadiusMetres(metresPerSecondFromKnots(lead.trueAirspeedKnots), radiansFromDegrees(lead.writingBankDegrees));
}
