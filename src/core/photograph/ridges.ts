import { blurred, type GreyPicture } from './grey-picture.ts';

/** Where a picture has bright lines: how strongly, over the noise, and along which way. */
export interface RidgeMap {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** In deviations of what the sky alone gives; 0 where there is no bright line. */
  readonly strength: Float32Array;
  /** Along the line, in [0, pi), x to the right and y DOWN. */
  readonly directionRadians: Float32Array;
}

/**
 * Bright lines of about the given widths: the sky's own brightness, smooth over many widths, is taken off; what is left
 * is smoothed at each width and its curvature across the steepest direction kept (the lesser eigenvalue of the Hessian,
 * scaled by the square of the width; Lindeberg 1998, Int. J. Computer Vision 30, "Edge detection and ridge detection
 * with automatic scale selection"). Blobs, whose curvature is alike in every direction, count less.
 *
 * @param sigmasPixels deviations of the lines looked for, narrowest first
 */
export function ridgeMap(picture: GreyPicture, sigmasPixels: readonly number[]): RidgeMap {
  const { widthPixels: width, heightPixels: height } = picture;
  const strength = new Float32Array(width * height);
  const directionRadians = new Float32Array(width * height);
  const widest = sigmasPixels.at(-1);
  if (widest === undefined) throw new RangeError('no widths to look for');
  const sky = blurred(picture, 6 * widest).values;
  const flat = { ...picture, values: picture.values.map((value, index) => value - sky[index]!) };
  for (const sigma of sigmasPixels) {
    const { values } = blurred(flat, sigma);
    const scale = sigma * sigma;
    const here = new Float32Array(width * height);
    const way = new Float32Array(width * height);
    for (let y = 1; y < height - 1; y++) {
      for (let x = 1; x < width - 1; x++) {
        const index = y * width + x;
        const middle = values[index]!;
        const xx = values[index - 1]! - 2 * middle + values[index + 1]!;
        const yy = values[index - width]! - 2 * middle + values[index + width]!;
        const xy = (values[index + width + 1]! - values[index + width - 1]! - values[index - width + 1]! + values[index - width - 1]!) / 4;
        const mean = (xx + yy) / 2;
        const spread = Math.hypot((xx - yy) / 2, xy);
        const least = mean - spread;
        if (least >= 0) continue;
        // A line has one curvature near zero, a blob two alike.
        const lineness = (2 * spread) / (spread - mean + 1e-12);
        here[index] = -least * scale * Math.min(1, lineness);
        // The eigenvector of the lesser eigenvalue lies across the line.
        const across = Math.atan2(2 * xy, xx - yy) / 2 + Math.PI / 2;
        way[index] = (((across + Math.PI / 2) % Math.PI) + Math.PI) % Math.PI;
      }
    }
    const noise = noiseOf(here);
    for (let index = 0; index < here.length; index++) {
      const over = here[index]! / noise;
      if (over <= strength[index]!) continue;
      strength[index] = over;
      directionRadians[index] = way[index]!;
    }
  }
  return { widthPixels: width, heightPixels: height, strength, directionRadians };
}

/** The usual strength where there is no line: most of a sky is bare, so that the median of what is not zero tells it. */
function noiseOf(values: Float32Array): number {
  const some: number[] = [];
  const every = Math.max(1, Math.floor(values.length / 20_000));
  for (let index = 0; index < values.length; index += every) if (values[index]! > 0) some.push(values[index]!);
  some.sort((one, other) => one - other);
  return Math.max(some[some.length >> 1] ?? 0, 1e-6);
}
