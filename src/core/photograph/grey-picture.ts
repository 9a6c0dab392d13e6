/** Brightness over a grid of pixels, row by row from the top. */
export interface GreyPicture {
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly values: Float32Array;
}

/**
 * A colour picture's red light, which a clear sky has least of and smoke as much as of any other, averaged over squares
 * of whole pixels so that neither side is longer than `mostPixels`.
 *
 * @param rgba four bytes a pixel, row by row, as a canvas gives them
 * @throws RangeError when the bytes do not fill the picture
 */
export function redLight(
  rgba: Uint8ClampedArray | Uint8Array,
  widthPixels: number,
  heightPixels: number,
  mostPixels: number,
): GreyPicture & { readonly shrunk: number } {
  if (rgba.length !== 4 * widthPixels * heightPixels) throw new RangeError(`${rgba.length} bytes are no picture of ${widthPixels} by ${heightPixels}`);
  const shrunk = Math.max(1, Math.ceil(Math.max(widthPixels, heightPixels) / mostPixels));
  const width = Math.floor(widthPixels / shrunk);
  const height = Math.floor(heightPixels / shrunk);
  const values = new Float32Array(width * height);
  for (let y = 0; y < height * shrunk; y++) {
    const row = Math.floor(y / shrunk) * width;
    for (let x = 0; x < width * shrunk; x++) values[row + Math.floor(x / shrunk)]! += rgba[4 * (y * widthPixels + x)]!;
  }
  const share = 1 / (255 * shrunk * shrunk);
  for (let index = 0; index < values.length; index++) values[index]! *= share;
  return { widthPixels: width, heightPixels: height, values, shrunk };
}

/** A picture blurred by three box means, near to a Gaussian of this deviation; the edge repeats outwards. */
export function blurred({ widthPixels, heightPixels, values }: GreyPicture, sigmaPixels: number): GreyPicture {
  // Three boxes of radius r have the variance r (r + 1), so that this radius gives sigma squared.
  const radius = Math.max(1, Math.round((Math.sqrt(1 + 4 * sigmaPixels * sigmaPixels) - 1) / 2));
  let from: Float32Array = values;
  for (let pass = 0; pass < 3; pass++) {
    const across = new Float32Array(values.length);
    for (let y = 0; y < heightPixels; y++) boxMean(from, across, y * widthPixels, 1, widthPixels, radius);
    const down = new Float32Array(values.length);
    for (let x = 0; x < widthPixels; x++) boxMean(across, down, x, widthPixels, heightPixels, radius);
    from = down;
  }
  return { widthPixels, heightPixels, values: from };
}

/** A running mean of 2 r + 1 values along one line of a grid. */
function boxMean(from: Float32Array, to: Float32Array, start: number, step: number, count: number, radius: number): void {
  const at = (index: number): number => from[start + Math.min(count - 1, Math.max(0, index)) * step]!;
  let sum = 0;
  for (let index = -radius; index <= radius; index++) sum += at(index);
  const share = 1 / (2 * radius + 1);
  for (let index = 0; index < count; index++) {
    to[start + index * step] = sum * share;
    sum += at(index + radius + 1) - at(index - radius);
  }
}

/** The value between four pixels; pixel centres lie at halves. Outside, the nearest edge's. */
export function valueAt({ widthPixels, heightPixels, values }: GreyPicture, x: number, y: number): number {
  const left = Math.min(widthPixels - 1.001, Math.max(0, x - 0.5));
  const top = Math.min(heightPixels - 1.001, Math.max(0, y - 0.5));
  const column = Math.floor(left);
  const row = Math.floor(top);
  const [right, down] = [left - column, top - row];
  const index = row * widthPixels + column;
  const nextColumn = column + 1 < widthPixels ? 1 : 0;
  const nextRow = row + 1 < heightPixels ? widthPixels : 0;
  return (
    (values[index]! * (1 - right) + values[index + nextColumn]! * right) * (1 - down) +
    (values[index + nextRow]! * (1 - right) + values[index + nextRow + nextColumn]! * right) * down
  );
}
