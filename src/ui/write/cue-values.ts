import type { Cues } from '../../core/guidance/cues.ts';

/** The names of the cue contract that follow from the cues; `said` beside them also follows from what was said before. */
export const CUE_NAMES = [
  'phase',
  'turn',
  'heading',
  'heading-true',
  'bank',
  'smoke',
  'smoke-in',
  'cross-track',
  'stroke',
  'letter',
  'fix-age',
  'wind',
  'oil',
  'ship',
  'height',
  'established',
  'late',
  'held',
] as const;

export type CueName = (typeof CUE_NAMES)[number];

/** A number rounded to some decimals, without a minus before zero. */
function rounded(value: number, decimals: number): string {
  return (Number(value.toFixed(decimals)) + 0).toFixed(decimals);
}

const whole = (degrees: number | null): string => (degrees === null ? '' : String(((Math.round(degrees) % 360) + 360) % 360));

/**
 * The machine values of the cue contract, exactly as `data-value` carries them; empty for a value that is not
 * valid. North is 0 here and 360 to a person. Smoke changes in 4.26 s: `smoke-in` is "4.3".
 */
export function cueValue(cues: Cues, name: CueName): string {
  switch (name) {
    case 'phase':
      return cues.phase;
    case 'turn':
      return cues.turn ?? '';
    case 'heading':
      return whole(cues.headingMagneticDegrees);
    case 'heading-true':
      return whole(cues.headingTrueDegrees);
    case 'bank':
      return cues.bankDegrees === null ? '' : rounded(cues.bankDegrees, 0);
    case 'smoke':
      return cues.smoke ?? '';
    case 'smoke-in':
      return cues.smokeInSeconds === null ? '' : rounded(Math.max(0, cues.smokeInSeconds), 1);
    case 'cross-track':
      return cues.crossTrackMetres === null ? '' : rounded(cues.crossTrackMetres, 1);
    case 'stroke':
      return cues.strokeCount === 0 ? '' : `${cues.strokeNumber}/${cues.strokeCount}`;
    case 'letter':
      return cues.character ?? '';
    case 'fix-age':
      return cues.fixAgeSeconds === null ? '' : rounded(cues.fixAgeSeconds, 1);
    case 'wind':
      return cues.windFromDegrees === null || cues.windKnots === null ? '' : `${whole(cues.windFromDegrees)}/${rounded(cues.windKnots, 0)}`;
    case 'oil':
      return rounded(cues.oilKilograms, 1);
    case 'ship':
      return cues.shipName;
    case 'height':
      return cues.heightFeet === null ? '' : rounded(cues.heightFeet, 0);
    case 'established':
      return cues.established === null ? '' : cues.established ? 'yes' : 'no';
    case 'held':
      return cues.held ? 'yes' : '';
    case 'late':
      return cues.lateSeconds === null ? '' : rounded(cues.lateSeconds, 0);
  }
}
