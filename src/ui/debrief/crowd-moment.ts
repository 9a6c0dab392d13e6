import { type SkyDirection, sunAt } from '../../core/earth/sun.ts';
import type { Job } from '../../core/job/job.ts';
import type { JobAir } from '../../core/job/job-air.ts';
import type { SkyMoment } from '../../core/sky/sky-picture.ts';
import type { SmokeCase } from '../../core/sky/smoke-range.ts';
import type { FlownScene } from './flown-scene.ts';

/** Where the crowd's eyes are, in the site frame. */
const CROWD_EYE = { eastMetres: 0, northMetres: 0, upMetres: 1.6 };

/** What the sky's picture needs of a moment of a flight, but for its camera. */
export type CrowdMoment = Omit<SkyMoment, 'camera'>;

/** The sky over the crowd at a moment: the drift found, as one steady wind that has carried everything just so far. */
export function crowdMoment(scene: FlownScene, air: JobAir, smoke: SmokeCase, atMilliseconds: number): CrowdMoment {
  const atSeconds = (atMilliseconds - scene.datumMilliseconds) / 1000;
  const drift = scene.groundOffsetAt(atMilliseconds);
  const laid = scene.groundOffsetAt(scene.datumMilliseconds);
  const wind =
    Math.abs(atSeconds) < 1
      ? air.wind
      : { eastMetresPerSecond: (drift.eastMetres - laid.eastMetres) / atSeconds, northMetresPerSecond: (drift.northMetres - laid.northMetres) / atSeconds };
  return { atSeconds, eye: CROWD_EYE, wind, shear: air.shear, layerAboveSiteMetres: air.layerAboveSiteMetres, visibilityMetres: null, smoke };
}

/** The sun over the crowd. */
export function crowdSun(job: Job, atMilliseconds: number): SkyDirection {
  return sunAt(job.site, atMilliseconds);
}
