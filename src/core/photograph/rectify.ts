import type { LetterFrame } from '../paths/letter-frame.ts';
import { type GreyPicture, valueAt } from './grey-picture.ts';
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
  return { widthPixels, heightPixels, values: evened(values, widthPixels, heightPixels, Math.round(0.6 * pixelsPerHeight)), metresPerPixel };
}

/** Takes the sky off: what lies under a wide mean is dark, the brightest 2 % white. */
function evened(values: Float32Array, width: number, height: number, reach: number): Float32Array {
  const sky = lowMean(values, width, height, reach);
  const over = values.map((value, index) => (Number.isNaN(value) ? 0 : Math.max(0, value - sky[index]!)));
  const sorted = Float32Array.from(over).sort();
  const top = sorted[Math.floor(0.98 * (sorted.length - 1))] ?? 1;
  return over.map((value) => Math.min(1, value / Math.max(1e-6, top)));
}

/** The sky under the smoke: of each tile the 20 % that is darkest, laid smoothly over the picture. */
function lowMean(values: Float32Array, width: number, height: number, tile: number): Float32Array {
  const columns = Math.max(2, Math.ceil(width / tile) + 1);
  const rows = Math.max(2, Math.ceil(height / tile) + 1);
  const grid = new Float32Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const own: number[] = [];
      for (let y = Math.max(0, (row - 1) * tile); y < Math.min(height, (row + 1) * tile); y += 2)
        for (let x = Math.max(0, (column - 1) * tile); x < Math.min(width, (column + 1) * tile); x += 2) {
          const value = values[y * width + x]!;
          if (!Number.isNaN(value)) own.push(value);
        }
      own.sort((one, other) => one - other);
      grid[row * columns + column] = own[Math.floor(own.length * 0.2)] ?? 0;
    }
  }
  return Float32Array.from(values, (_, index) => {
    const x = (index % width) / tile;
    const y = Math.floor(index / width) / tile;
    const [column, row] = [Math.min(columns - 2, Math.floor(x)), Math.min(rows - 2, Math.floor(y))];
    const [right, down] = [x - column, y - row];
    const at = row * columns + column;
    return (grid[at]! * (1 - right) + grid[at + 1]! * right) * (1 - down) + (grid[at + columns]! * (1 - right) + grid[at + columns + 1]! * right) * down;
  });
}
