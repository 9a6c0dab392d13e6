import { type FromEye, type PhotoCamera, type PhotoPoint, projector } from './photo-camera.ts';
import type { WordSample } from './word-samples.ts';

/**
 * What is not known of a picture: where the camera looks and how it is held, its focal length and distortion, how much
 * farther the air carried the word's middle than was believed, how much higher the layer is, and how much faster the air
 * went while the word was written, which draws it out: older smoke went farther. In this order in every vector.
 */
export const UNKNOWNS = ['bearing', 'tilt', 'roll', 'focal', 'distortion', 'driftEast', 'driftNorth', 'height', 'stretchEast', 'stretchNorth'] as const;
export type Unknown = (typeof UNKNOWNS)[number];

/**
 * A picture's unknowns: radians, the logarithm of the focal length in pixels, a share, metres, the logarithm of a factor,
 * metres a second.
 */
export type PicturePose = Readonly<Record<Unknown, number>>;

/** Small enough for the slope of a picture with each unknown, in the order of {@link UNKNOWNS}. */
export const STEPS: readonly number[] = [1e-5, 1e-5, 1e-5, 1e-5, 1e-4, 0.5, 0.5, 1e-5, 2e-3, 2e-3];

/** What is believed of the unknowns before the picture is looked at, and how well: standard deviations. */
export interface PosePrior {
  readonly mean: PicturePose;
  readonly sigma: PicturePose;
}

export const vectorOf = (pose: PicturePose): number[] => UNKNOWNS.map((name) => pose[name]);

export function poseOf(vector: readonly number[]): PicturePose {
  return Object.fromEntries(UNKNOWNS.map((name, index) => [name, vector[index]!])) as PicturePose;
}

/** The camera a pose tells of, for a picture of a size. */
export function cameraOf(pose: PicturePose, widthPixels: number, heightPixels: number): PhotoCamera {
  return {
    bearingRadians: pose.bearing,
    tiltRadians: pose.tilt,
    rollRadians: pose.roll,
    focalPixels: Math.exp(pose.focal),
    distortion: pose.distortion,
    widthPixels,
    heightPixels,
  };
}

/** A point of the word where the pose has it: carried by the drift, and higher; smoke so much older than the word's middle farther. */
export function movedBy(pose: PicturePose, { eastMetres, northMetres, upMetres }: FromEye, olderSeconds = 0): FromEye {
  return {
    eastMetres: eastMetres + pose.driftEast + pose.stretchEast * olderSeconds,
    northMetres: northMetres + pose.driftNorth + pose.stretchNorth * olderSeconds,
    upMetres: upMetres * Math.exp(pose.height),
  };
}

/** Where a bit of a stroke falls, and along which way it runs there: x right, y down, a unit vector. */
export interface SampleShown extends PhotoPoint {
  readonly alongX: number;
  readonly alongY: number;
  /** Pixels a metre along the stroke, and across it. */
  readonly pixelsPerMetreAlong: number;
  readonly pixelsPerMetreAcross: number;
}

/** Where every bit of the word falls, and nothing more: x and y in turn, NaN behind the camera. */
export function placesShown(samples: readonly WordSample[], pose: PicturePose, widthPixels: number, heightPixels: number): Float64Array {
  const project = projector(cameraOf(pose, widthPixels, heightPixels));
  const places = new Float64Array(2 * samples.length).fill(NaN);
  samples.forEach(({ at, olderSeconds }, index) => {
    const here = project(movedBy(pose, at, olderSeconds));
    if (here === null) return;
    places[2 * index] = here.x;
    places[2 * index + 1] = here.y;
  });
  return places;
}

/** Far enough along and across a stroke to tell scale and direction, in metres. */
const STEP_METRES = 4;

/** Every bit of the word as a pose shows it; null where it falls behind the camera. */
export function samplesShown(samples: readonly WordSample[], pose: PicturePose, widthPixels: number, heightPixels: number): (SampleShown | null)[] {
  const project = projector(cameraOf(pose, widthPixels, heightPixels));
  return samples.map(({ at, onEast, onNorth, olderSeconds }) => {
    const moved = movedBy(pose, at, olderSeconds);
    const here = project(moved);
    const along = project({ ...moved, eastMetres: moved.eastMetres + STEP_METRES * onEast, northMetres: moved.northMetres + STEP_METRES * onNorth });
    const across = project({ ...moved, eastMetres: moved.eastMetres - STEP_METRES * onNorth, northMetres: moved.northMetres + STEP_METRES * onEast });
    if (here === null || along === null || across === null) return null;
    const x = along.x - here.x;
    const y = along.y - here.y;
    const length = Math.hypot(x, y);
    if (!(length > 0)) return null;
    // How far a metre across the stroke lies from its line in the picture.
    const aside = Math.abs((across.x - here.x) * y - (across.y - here.y) * x) / length;
    return { ...here, alongX: x / length, alongY: y / length, pixelsPerMetreAlong: length / STEP_METRES, pixelsPerMetreAcross: aside / STEP_METRES };
  });
}

/** Pixels a metre in the middle of the word: the median over its bits; 0 where none is shown. */
export function middleScale(shown: readonly (SampleShown | null)[]): number {
  const scales = shown.flatMap((at) => (at === null ? [] : [Math.sqrt(at.pixelsPerMetreAlong * at.pixelsPerMetreAcross)])).sort((one, other) => one - other);
  return scales[scales.length >> 1] ?? 0;
}
