import type { PicturePose } from './picture-pose.ts';

/** A correction of the wind, east and north, and the deviation of each part. */
export interface WindTold {
  readonly eastMetresPerSecond: number;
  readonly northMetresPerSecond: number;
  readonly eastSigma: number;
  readonly northSigma: number;
}

/** A picture's drift beyond what was believed, at its time. */
export interface DriftSeen {
  readonly atSeconds: number;
  readonly pose: PicturePose;
  readonly sigma: PicturePose;
}

/** Two pictures nearer in time tell no wind. */
const LEAST_SECONDS = 45;
/** Of two pictures from one place much of the error is the same: lens, distortion, layer. So much of the variance is left. */
const OWN_SHARE = 0.8;

/** How much faster the air went than was believed, from two pictures; null when they are taken too soon after each other. */
export function windFromPictures(first: DriftSeen, second: DriftSeen): WindTold | null {
  const seconds = second.atSeconds - first.atSeconds;
  if (Math.abs(seconds) < LEAST_SECONDS) return null;
  const part = (name: 'driftEast' | 'driftNorth'): readonly [number, number] => [
    (second.pose[name] - first.pose[name]) / seconds,
    Math.sqrt(OWN_SHARE) * (Math.hypot(first.sigma[name], second.sigma[name]) / Math.abs(seconds)),
  ];
  const [eastMetresPerSecond, eastSigma] = part('driftEast');
  const [northMetresPerSecond, northSigma] = part('driftNorth');
  return { eastMetresPerSecond, northMetresPerSecond, eastSigma, northSigma };
}
