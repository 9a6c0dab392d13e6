import type { Cues } from '../../../src/core/guidance/cues.ts';

/** A left turn towards a stroke, invented. */
export const someCues: Cues = {
  phase: 'reposition',
  turn: 'left',
  headingTrueDegrees: 228,
  headingMagneticDegrees: 215,
  bankDegrees: 45,
  smoke: 'off',
  smokeInSeconds: 32.4,
  crossTrackMetres: -3.6,
  strokeNumber: 5,
  strokeCount: 14,
  character: 'L',
  fixAgeSeconds: 0.8,
  fixHealth: 'good',
  held: false,
  windFromDegrees: 250,
  windKnots: 18,
  oilKilograms: 92.4,
  shipName: 'Lead',
  part: null,
  heightFeet: 9500.6,
  established: false,
  lateSeconds: 12.3,
  because: 'to stroke 5',
  next: { turn: 'straight', headingMagneticDegrees: 215, bankDegrees: 0, inSeconds: 14 },
};
