import type { SkyDirection } from '../../core/earth/sun.ts';
import { cameraAround, seenSmoke, type SkyMoment } from '../../core/sky/sky-picture.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { paintSky, type SkyColours } from './sky-scene.ts';

/** Directions to some of the smoke, for a camera that holds all of it. */
export function smokeDirections(trails: readonly Trail[], moment: Omit<SkyMoment, 'camera'>): SkyDirection[] {
  const unseen = { ...moment, camera: { azimuthRadians: 0, elevationRadians: 0, fieldRadians: 1, widthPixels: 1, heightPixels: 1 } };
  return trails.flatMap(({ points, heightStepMetres }) =>
    points.filter((_, index) => index % 8 === 0 || index === points.length - 1).map((point) => seenSmoke(point, heightStepMetres, unseen)),
  );
}

/** Above this the horizon is left out: nobody sees both at once. */
const HORIZON_WITHIN_RADIANS = (58 * Math.PI) / 180;

/** Paints the sky into a picture of its own, with a camera held still on the given directions. */
export function paintHeld(
  context: CanvasRenderingContext2D,
  trails: readonly Trail[],
  moment: Omit<SkyMoment, 'camera'>,
  sun: SkyDirection,
  held: readonly SkyDirection[],
  size: { readonly widthPixels: number; readonly heightPixels: number },
  colours: SkyColours,
): void {
  const low = held.every(({ elevationRadians }) => elevationRadians < HORIZON_WITHIN_RADIANS);
  const camera = cameraAround(held, size.widthPixels, size.heightPixels, low);
  paintSky(context, trails, { ...moment, camera }, sun, colours);
}
