/**
 * The camera of a photograph: a pinhole with a little radial distortion, where it looks, and how it is held. The eye is
 * the origin of an east, north, up frame in metres.
 */
export interface PhotoCamera {
  /** Of the picture's middle, clockwise from true north. */
  readonly bearingRadians: number;
  /** Of the picture's middle above the horizon. */
  readonly tiltRadians: number;
  /** Positive when the camera is turned clockwise as its holder sees it, so that level lines fall to the right. */
  readonly rollRadians: number;
  readonly focalPixels: number;
  /** By how much of its distance from the middle a corner of the picture is moved outwards. */
  readonly distortion: number;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

/** A point seen from the eye, in metres. */
export interface FromEye {
  readonly eastMetres: number;
  readonly northMetres: number;
  readonly upMetres: number;
}

/** A point of a picture, right and down from its upper left corner. */
export interface PhotoPoint {
  readonly x: number;
  readonly y: number;
}

/** Nearer than this to the plane of the lens a point has no place in the picture: 84 degrees off its middle. */
const LEAST_AHEAD = 0.1;

/** Where points fall in the picture; null where one lies behind or far aside. The camera is worked out once. */
export function projector(camera: PhotoCamera): (point: FromEye) => PhotoPoint | null {
  const { bearingRadians, tiltRadians, rollRadians, focalPixels, distortion, widthPixels, heightPixels } = camera;
  const [sinB, cosB] = [Math.sin(bearingRadians), Math.cos(bearingRadians)];
  const [sinT, cosT] = [Math.sin(tiltRadians), Math.cos(tiltRadians)];
  const [sinR, cosR] = [Math.sin(rollRadians), Math.cos(rollRadians)];
  const cornerSquare = (widthPixels ** 2 + heightPixels ** 2) / 4;
  return ({ eastMetres, northMetres, upMetres }) => {
    const range = Math.hypot(eastMetres, northMetres, upMetres);
    const level = eastMetres * sinB + northMetres * cosB;
    const right = eastMetres * cosB - northMetres * sinB;
    const ahead = level * cosT + upMetres * sinT;
    if (!(ahead > LEAST_AHEAD * range)) return null;
    const raised = upMetres * cosT - level * sinT;
    const x = (focalPixels * (right * cosR - raised * sinR)) / ahead;
    const y = (focalPixels * (right * sinR + raised * cosR)) / ahead;
    const outwards = 1 + (distortion * (x * x + y * y)) / cornerSquare;
    return { x: widthPixels / 2 + x * outwards, y: heightPixels / 2 - y * outwards };
  };
}
