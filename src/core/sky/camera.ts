import type { SkyDirection } from '../earth/sun.ts';

/** A picture: where it looks and how much it holds. */
export interface Camera {
  readonly azimuthRadians: number;
  readonly elevationRadians: number;
  /** Across the whole picture, under pi. */
  readonly fieldRadians: number;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** A point of the picture, right and DOWN from its upper left corner. */
export interface ImagePoint {
  readonly xPixels: number;
  readonly yPixels: number;
}

/**
 * Where a direction falls in the picture, by central projection (straight lines stay straight), or null when it lies
 * behind or so far aside that it has no place: more than 87 degrees from the picture's middle.
 */
export function imageOf(direction: SkyDirection, camera: Camera): ImagePoint | null {
  const turn = direction.azimuthRadians - camera.azimuthRadians;
  const flat = Math.cos(direction.elevationRadians);
  const right = flat * Math.sin(turn);
  const level = flat * Math.cos(turn);
  const up = Math.sin(direction.elevationRadians);
  const ahead = level * Math.cos(camera.elevationRadians) + up * Math.sin(camera.elevationRadians);
  if (ahead < 0.05) return null;
  const raised = up * Math.cos(camera.elevationRadians) - level * Math.sin(camera.elevationRadians);
  const scale = pixelsPerTangent(camera);
  return {
    xPixels: camera.widthPixels / 2 + (scale * right) / ahead,
    yPixels: camera.heightPixels / 2 - (scale * raised) / ahead,
  };
}

/** Pixels for each unit of tangent off the picture's middle; near the middle, pixels for each radian. */
export function pixelsPerTangent(camera: Camera): number {
  if (!(camera.fieldRadians > 0 && camera.fieldRadians < Math.PI)) {
    throw new RangeError(`fieldRadians must lie between 0 and pi, not ${camera.fieldRadians}`);
  }
  return camera.widthPixels / 2 / Math.tan(camera.fieldRadians / 2);
}
