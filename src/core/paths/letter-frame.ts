import type { LetterPath, LetterPoint } from '../letters/letter-path.ts';
import { positiveRadians } from '../units/angle.ts';
import type { AirPath, AirPoint } from './air-path.ts';

/**
 * How the text lies on the sky. Seen from below, reading runs along azimuth facing + 90 degrees and the letters'
 * tops point along facing + 180 degrees, towards the crowd, since what is nearer stands higher in the eye. On the
 * map this is a mirror image: left turns in the letter frame are right turns for the pilot.
 */
export interface LetterFrame {
  /** Azimuth the crowd looks, clockwise from true north. */
  readonly facingRadians: number;
  /** The text's middle, in the air-mass frame. */
  readonly middle: AirPoint;
}

/**
 * Air-mass point from a letter-frame point. With the crowd facing north, x is east and y is south.
 * Inverse: {@link letterFromAir}.
 */
export function airFromLetter(point: LetterPoint, frame: LetterFrame): AirPoint {
  const cosine = Math.cos(frame.facingRadians);
  const sine = Math.sin(frame.facingRadians);
  return {
    airEastMetres: frame.middle.airEastMetres + point.xMetres * cosine - point.yMetres * sine,
    airNorthMetres: frame.middle.airNorthMetres - point.xMetres * sine - point.yMetres * cosine,
  };
}

/** Letter-frame point from an air-mass point; the inverse of {@link airFromLetter}. */
export function letterFromAir(point: AirPoint, frame: LetterFrame): LetterPoint {
  const cosine = Math.cos(frame.facingRadians);
  const sine = Math.sin(frame.facingRadians);
  const east = point.airEastMetres - frame.middle.airEastMetres;
  const north = point.airNorthMetres - frame.middle.airNorthMetres;
  return { xMetres: east * cosine - north * sine, yMetres: -east * sine - north * cosine };
}

/** Air-mass direction from a letter-frame direction; its own inverse, as every reflection is. */
export function airDirectionFromLetter(directionRadians: number, frame: LetterFrame): number {
  return positiveRadians(-frame.facingRadians - directionRadians);
}

/** The path as the pilot flies it: mirrored, so every curvature changes sign. */
export function airPathFromLetter(path: LetterPath, frame: LetterFrame): AirPath {
  return {
    start: {
      ...airFromLetter(path.start, frame),
      directionRadians: airDirectionFromLetter(path.start.directionRadians, frame),
    },
    segments: path.segments.map(({ lengthMetres, curvaturePerMetre }) => ({
      lengthMetres,
      curvaturePerMetre: 0 - curvaturePerMetre,
    })),
  };
}
