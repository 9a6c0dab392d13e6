import { type SkyDirection, sunAt } from '../../core/earth/sun.ts';
import type { Job } from '../../core/job/job.ts';
import type { JobAir } from '../../core/job/job-air.ts';
import { cameraAround, seenSmoke, type SkyMoment } from '../../core/sky/sky-picture.ts';
import type { SmokeCase } from '../../core/sky/smoke-range.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { paintSky, type SkyColours } from '../sky/sky-scene.ts';
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

/** Directions to some of the smoke, for a camera that holds all of it. */
export function smokeDirections(trails: readonly Trail[], moment: CrowdMoment): SkyDirection[] {
  const unseen = { ...moment, camera: { azimuthRadians: 0, elevationRadians: 0, fieldRadians: 1, widthPixels: 1, heightPixels: 1 } };
  return trails.flatMap(({ points, heightStepMetres }) =>
    points.filter((_, index) => index % 8 === 0 || index === points.length - 1).map((point) => seenSmoke(point, heightStepMetres, unseen)),
  );
}

/** Above this the horizon is left out: nobody sees both at once. */
const HORIZON_WITHIN_RADIANS = (58 * Math.PI) / 180;

/** Paints the crowd's view into a picture of its own, with a camera held still on the given directions. */
export function paintCrowd(
  context: CanvasRenderingContext2D,
  trails: readonly Trail[],
  moment: CrowdMoment,
  sun: SkyDirection,
  held: readonly SkyDirection[],
  size: { readonly widthPixels: number; readonly heightPixels: number },
  colours: SkyColours,
): void {
  const low = held.every(({ elevationRadians }) => elevationRadians < HORIZON_WITHIN_RADIANS);
  const camera = cameraAround(held, size.widthPixels, size.heightPixels, low);
  paintSky(context, trails, { ...moment, camera }, sun, colours);
}

/** The colours of the sky's pictures, read from a mark of their class that stands on the page for a moment. */
export function skyColours(): SkyColours {
  const probe = document.createElement('div');
  probe.className = 'sky-picture';
  document.body.append(probe);
  const style = getComputedStyle(probe);
  const read = (name: string): string => style.getPropertyValue(name).trim();
  const colours = {
    high: read('--sky-high'),
    low: read('--sky-low'),
    smoke: read('--sky-smoke'),
    sun: read('--sky-sun'),
    land: read('--sky-land'),
    figure: read('--sky-figure'),
  };
  probe.remove();
  return colours;
}
