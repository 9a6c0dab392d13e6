import { radiansFromDegrees } from '../units/angle.ts';
import { metresFromFeet } from '../units/quantity.ts';
import type { Job } from './job.ts';

/** How large a job's text is written, and how the crowd is to see it, in SI: worked out here and nowhere else. */
export interface JobText {
  readonly letterHeightMetres: number;
  /** True azimuth along which the crowd looks when it reads the text level. */
  readonly facingRadians: number;
  /** Of the text's middle over the crowd's horizon, at the read time. */
  readonly viewElevationRadians: number;
}

/** What of a job its text's size and sight depend on. */
export type JobOfText = Pick<Job, 'letters' | 'facingDegreesTrue' | 'viewElevationDegrees'>;

/** A job's text in SI. */
export function jobText({ letters, facingDegreesTrue, viewElevationDegrees }: JobOfText): JobText {
  return {
    letterHeightMetres: metresFromFeet(letters.heightFeet),
    facingRadians: radiansFromDegrees(facingDegreesTrue),
    viewElevationRadians: radiansFromDegrees(viewElevationDegrees),
  };
}
