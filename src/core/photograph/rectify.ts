import type { LetterFrame } from '../paths/letter-frame.ts';
import { blurred, type GreyPicture, valueAt } from './grey-picture.ts';
import { projector } from './photo-camera.ts';
import { cameraOf, movedBy, type PicturePose } from './picture-pose.ts';
import type { WordSample } from './word-samples.ts';
import { wordCorners } from './word-corners.ts';

/** A word as it would be seen from straight below, drawn from a photograph. */
export interface RectifiedWord {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Brightness over the sky's, 0 to 1, row by row from the letters' tops. */
  readonly values: Float32Array;
  readonly metresPerPixel: number;
}

const MARGIN_HEIGHTS = 0.5;
/** Lines up to twice as wide are smoke, in letter heights; what is wider is the sky's. */
const SKY_HEIGHTS = 0.35;
/** Grain is evened over this before the darkest is looked for. */
const STILL_HEIGHTS = 0.04;

/**
 * The part of a picture round the word, as from straight below: upright, every metre of the layer alike.
 *
 * @param pixelsPerHeight pixels for a letter's height
 */
export function rectifiedWord(
  picture: GreyPicture,
  pose: PicturePose,
  samples: readonly WordSample[],
  { facingRadians }: Pick<LetterFrame, 'facingRadians'>,
  letterHeightMetres: number,
  pixelsPerHeight: number,
): RectifiedWord {
  const [lowerLeft, lowerRight, upperRight] = wordCorners(samples, { facingRadians });
  if (lowerLeft === undefined || lowerRight === undefined || upperRight === undefined) throw new RangeError('a word without strokes');
  const metresPerPixel = letterHeightMetres / pixelsPerHeight;
  const margin = MARGIN_HEIGHTS * letterHeightMetres;
  const length = Math.hypot(lowerRight.eastMetres - lowerLeft.eastMetres, lowerRight.northMetres - lowerLeft.northMetres) + 2 * margin;
  const depth = Math.hypot(upperRight.eastMetres - lowerRight.eastMetres, upperRight.northMetres - lowerRight.northMetres) + 2 * margin;
  const widthPixels = Math.ceil(length / metresPerPixel);
  const heightPixels = Math.ceil(depth / metresPerPixel);
  const [sine, cosine] = [Math.sin(facingRadians), Math.cos(facingRadians)];
  const project = projector(cameraOf(pose, picture.widthPixels, picture.heightPixels));
  const values = new Float32Array(widthPixels * heightPixels);
  for (let row = 0; row < heightPixels; row++) {
    for (let column = 0; column < widthPixels; column++) {
      const along = (column + 0.5) * metresPerPixel - margin;
      const up = depth - (row + 0.5) * metresPerPixel - margin;
      const at = project(
        movedBy(pose, {
          eastMetres: lowerLeft.eastMetres + along * cosine - up * sine,
          northMetres: lowerLeft.northMetres - along * sine - up * cosine,
          upMetres: lowerLeft.upMetres,
        }),
      );
      const outside = at === null || at.x < 0 || at.y < 0 || at.x > picture.widthPixels || at.y > picture.heightPixels;
      values[row * widthPixels + column] = outside ? NaN : valueAt(picture, at.x, at.y);
    }
  }
  return { widthPixels, heightPixels, values: evened(values, widthPixels, heightPixels, pixelsPerHeight), metresPerPixel };
}

/** Takes the sky off: what is no brighter than the sky is dark, the brightest 2 % white. */
function evened(values: Float32Array, widthPixels: number, heightPixels: number, pixelsPerHeight: number): Float32Array {
  const sky = skyUnder(values, widthPixels, heightPixels, pixelsPerHeight);
  const over = values.map((value, index) => (Number.isNaN(value) ? 0 : Math.max(0, value - sky[index]!)));
  const sorted = Float32Array.from(over).sort();
  const top = sorted[Math.floor(0.98 * (sorted.length - 1))] ?? 1;
  return over.map((value) => Math.min(1, value / Math.max(1e-6, top)));
}

/**
 * The sky under the smoke: the darkest about each place, and of these the brightest about it, which takes out every line
 * narrower than the squares looked through and leaves a sun's glow (an opening: Serra 1982, "Image Analysis and
 * Mathematical Morphology").
 */
function skyUnder(values: Float32Array, widthPixels: number, heightPixels: number, pixelsPerHeight: number): Float32Array {
  const reach = Math.round(SKY_HEIGHTS * pixelsPerHeight);
  // What lies outside of the picture is never the darkest.
  const brightest = values.reduce((most, value) => (value > most ? value : most), 0);
  const filled = values.map((value) => (Number.isNaN(value) ? brightest : value));
  // Grain has dark specks of its own.
  const still = blurred({ widthPixels, heightPixels, values: filled }, Math.max(1, STILL_HEIGHTS * pixelsPerHeight)).values;
  const darkest = foldSquares(still, widthPixels, heightPixels, reach, Math.min);
  const sky = foldSquares(darkest, widthPixels, heightPixels, reach, Math.max);
  return blurred({ widthPixels, heightPixels, values: sky }, reach / 2).values;
}

/** The least or the greatest of each square of `2 reach + 1` pixels. */
function foldSquares(values: Float32Array, width: number, height: number, reach: number, fold: (one: number, other: number) => number): Float32Array {
  const along = (from: Float32Array, start: number, step: number, count: number, to: Float32Array): void => {
    for (let index = 0; index < count; index++) {
      let found = from[start + index * step]!;
      for (let near = Math.max(0, index - reach); near <= Math.min(count - 1, index + reach); near++) found = fold(found, from[start + near * step]!);
      to[start + index * step] = found;
    }
  };
  const across = new Float32Array(values.length);
  for (let row = 0; row < height; row++) along(values, row * width, 1, width, across);
  const both = new Float32Array(values.length);
  for (let column = 0; column < width; column++) along(across, column, width, height, both);
  return both;
}
