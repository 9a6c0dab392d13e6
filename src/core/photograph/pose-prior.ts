import { radiansFromDegrees, signedRadians } from '../units/angle.ts';
import type { GreyPicture } from './grey-picture.ts';
import type { PosePrior } from './picture-pose.ts';
import type { WordSample } from './word-samples.ts';

/** Where the device's back pointed: clockwise from true north, and up from the horizon. */
export interface Pointed {
  readonly bearingDegreesTrue: number;
  readonly tiltDegrees: number;
}

/** What is known of a picture beside its pixels; null where nobody knows. */
export interface PictureKnown {
  /** Of a lens that shows as much on film of 36 by 24 mm. */
  readonly focal35Millimetres: number | null;
  readonly pointed: Pointed | null;
}

/** A telephone's main lens, for a picture that says nothing; common practice, no source. */
const USUAL_FOCAL_MILLIMETRES = 26;
/** The diagonal of 36 by 24 mm. */
const FILM_MILLIMETRES = 43.27;
/**
 * The wind while a word was written, as tracking finds it: in six flights of the tests, each ten minutes or less in a wind
 * that wanders by 1.5 kt, what it missed grew by 0.03 to 0.41 metres a second.
 */
const STRETCH_SIGMA = 0.2;
/** What it missed of the drift in the same flights: 45, 220 and 465 m (rms, a part) 20, 300 and 600 seconds after the last smoke. */
const DRIFT_SIGMA_METRES = 50;
const DRIFT_SIGMA_METRES_PER_SECOND = 0.65;
/** A telephone's compass beside cars and railings, and what it turned while the camera lay over the page; common practice, no source. */
const POINTED_SIGMA_RADIANS = 0.2;
/** A device held otherwise than this was lowered already, or its compass is of no use: the word's own place is believed. */
const POINTED_AWAY_RADIANS = 0.8;

function pointedNear(pointed: Pointed | null, believed: { readonly bearing: number; readonly tilt: number }): typeof believed | null {
  if (pointed === null) return null;
  const tilt = radiansFromDegrees(pointed.tiltDegrees);
  const turned = signedRadians(radiansFromDegrees(pointed.bearingDegreesTrue) - believed.bearing);
  return Math.abs(turned) > POINTED_AWAY_RADIANS || Math.abs(tilt - believed.tilt) > POINTED_AWAY_RADIANS ? null : { bearing: believed.bearing + turned, tilt };
}

/** What is believed before the picture is looked at: as the device pointed, else towards the word; held level, by the lens and the wind. */
export function priorFor(
  samples: readonly WordSample[],
  known: PictureKnown,
  { widthPixels, heightPixels }: Pick<GreyPicture, 'widthPixels' | 'heightPixels'>,
): PosePrior {
  const east = samples.reduce((sum, { at }) => sum + at.eastMetres, 0) / samples.length;
  const north = samples.reduce((sum, { at }) => sum + at.northMetres, 0) / samples.length;
  const up = samples.reduce((sum, { at }) => sum + at.upMetres, 0) / samples.length;
  const believed = { bearing: Math.atan2(east, north), tilt: Math.atan2(up, Math.hypot(east, north)) };
  const pointed = pointedNear(known.pointed, believed);
  const focal = ((known.focal35Millimetres ?? USUAL_FOCAL_MILLIMETRES) / FILM_MILLIMETRES) * Math.hypot(widthPixels, heightPixels);
  // Tracking has the air until the last smoke; then its wind goes on wandering. Clocks may be a few seconds apart.
  const driftSigma = DRIFT_SIGMA_METRES + DRIFT_SIGMA_METRES_PER_SECOND * Math.min(...samples.map((sample) => sample.ageSeconds));
  return {
    mean: {
      ...(pointed ?? believed),
      roll: 0,
      focal: Math.log(focal),
      distortion: 0,
      driftEast: 0,
      driftNorth: 0,
      height: 0,
      stretchEast: 0,
      stretchNorth: 0,
    },
    sigma: {
      bearing: pointed === null ? 0.4 : POINTED_SIGMA_RADIANS,
      tilt: pointed === null ? 0.4 : POINTED_SIGMA_RADIANS,
      roll: 0.25,
      focal: known.focal35Millimetres === null ? 0.5 : 0.1,
      distortion: 0.02,
      driftEast: driftSigma,
      driftNorth: driftSigma,
      height: 0.01,
      stretchEast: STRETCH_SIGMA,
      stretchNorth: STRETCH_SIGMA,
    },
  };
}
