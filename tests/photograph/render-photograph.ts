import { createCanvas, loadImage } from '@napi-rs/canvas';
import { uniformFrom } from '../flight/random.ts';

/**
 * Photographs of smoke in the sky, made for the tests. Shares no code with the app: written in degrees, from the eye's
 * rays down to the layer, with a sky of its own.
 */

/** A bit of smoke in the layer's plane, metres east and north of the eye. */
export interface SmokeBit {
  readonly east: number;
  readonly north: number;
  readonly ageSeconds: number;
  readonly kilograms: number;
}

export interface PhotographOrder {
  readonly smoke: readonly SmokeBit[];
  readonly layerMetres: number;
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly bearingDegrees: number;
  readonly tiltDegrees: number;
  readonly rollDegrees: number;
  readonly focalPixels: number;
  /** A corner's outward shift over its distance from the middle. */
  readonly distortion: number;
  readonly sunBearingDegrees: number;
  readonly sunElevationDegrees: number;
  /** Greatest optical depth of a thin cloud above the smoke; 0 for a clear sky. */
  readonly cloud: number;
  readonly seed: number;
  /** Square metres a second, and metres when it is laid. */
  readonly diffusivity: number;
  readonly firstSigmaMetres: number;
}

export interface Photograph {
  readonly jpeg: Buffer;
  readonly rgba: Uint8ClampedArray;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

const DEGREE = Math.PI / 180;
/** Light removed by a kilogram of oil smoke, square metres: droplets of 0.9 micrometres by Mie theory. */
const EXTINCTION = 6800;
const CELL_METRES = 6;

/** The deviation of smoke of an age, in metres. */
export const smokeSigma = ({ diffusivity, firstSigmaMetres }: Pick<PhotographOrder, 'diffusivity' | 'firstSigmaMetres'>, ageSeconds: number): number =>
  Math.sqrt(firstSigmaMetres ** 2 + 2 * diffusivity * ageSeconds);

/** Takes the picture: JPEG at 80, and the pixels as they come back out of it. */
export async function takePhotograph(order: PhotographOrder): Promise<Photograph> {
  const { widthPixels: width, heightPixels: height } = order;
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const picture = context.createImageData(width, height);
  const depthAt = smokeField(order);
  const cloudAt = cloudField(order.seed, order.cloud);
  const uniform = uniformFrom(order.seed * 7 + 3);
  const noise = (): number => Math.sqrt(-2 * Math.log(uniform() + 1e-12)) * Math.cos(2 * Math.PI * uniform());
  const sun = ray(order.sunBearingDegrees, order.sunElevationDegrees);
  const [sinB, cosB] = [Math.sin(order.bearingDegrees * DEGREE), Math.cos(order.bearingDegrees * DEGREE)];
  const [sinT, cosT] = [Math.sin(order.tiltDegrees * DEGREE), Math.cos(order.tiltDegrees * DEGREE)];
  const [sinR, cosR] = [Math.sin(order.rollDegrees * DEGREE), Math.cos(order.rollDegrees * DEGREE)];
  const zenithSun = (90 - order.sunElevationDegrees) * DEGREE;
  const corner = Math.hypot(width / 2, height / 2);
  // Exposed for the sky in the middle of the picture.
  const exposure = 0.42 / skyLight(order.tiltDegrees, angleTo(ray(order.bearingDegrees, order.tiltDegrees), sun), zenithSun);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const [dx, dy] = [x + 0.5 - width / 2, height / 2 - (y + 0.5)];
      // Undoes r = u (1 + k u^2 / corner^2) by three rounds.
      let share = 1;
      for (let round = 0; round < 3; round += 1) share = 1 / (1 + (order.distortion * (dx * dx + dy * dy) * share * share) / (corner * corner));
      const [ux, uy] = [(dx * share) / order.focalPixels, (dy * share) / order.focalPixels];
      const right = ux * cosR + uy * sinR;
      const up = -ux * sinR + uy * cosR;
      const level = cosT - up * sinT;
      const rise = sinT + up * cosT;
      const east = level * sinB + right * cosB;
      const north = level * cosB - right * sinB;
      const size = Math.hypot(east, north, rise);
      const elevation = Math.asin(rise / size) / DEGREE;
      const light = exposure * skyLight(elevation, Math.acos(Math.max(-1, Math.min(1, (east * sun[0] + north * sun[1] + rise * sun[2]) / size))), zenithSun);
      let [red, green, blue] = [0.62 * light, 0.8 * light, 1.15 * light];
      if (rise > 0) {
        const cloud = 1 - Math.exp(-cloudAt((east / rise) * 8000, (north / rise) * 8000));
        [red, green, blue] = [red + (0.75 - red) * cloud, green + (0.76 - green) * cloud, blue + (0.78 - blue) * cloud];
        const depth = depthAt((east / rise) * order.layerMetres, (north / rise) * order.layerMetres) / Math.max(0.05, rise / size);
        const smoke = 1 - Math.exp(-depth);
        [red, green, blue] = [red + (0.88 - red) * smoke, green + (0.88 - green) * smoke, blue + (0.9 - blue) * smoke];
      }
      const index = 4 * (y * width + x);
      const grain = 0.012;
      picture.data[index] = 255 * (red + grain * noise());
      picture.data[index + 1] = 255 * (green + grain * noise());
      picture.data[index + 2] = 255 * (blue + grain * noise());
      picture.data[index + 3] = 255;
    }
  }
  context.putImageData(picture, 0, 0);
  const jpeg = canvas.toBuffer('image/jpeg', 80);
  const back = createCanvas(width, height).getContext('2d');
  back.drawImage(await loadImage(jpeg), 0, 0);
  return { jpeg, rgba: back.getImageData(0, 0, width, height).data as unknown as Uint8ClampedArray, widthPixels: width, heightPixels: height };
}

function ray(bearing: number, elevation: number): readonly [number, number, number] {
  const flat = Math.cos(elevation * DEGREE);
  return [flat * Math.sin(bearing * DEGREE), flat * Math.cos(bearing * DEGREE), Math.sin(elevation * DEGREE)];
}

const angleTo = (one: readonly [number, number, number], other: readonly [number, number, number]): number =>
  Math.acos(Math.max(-1, Math.min(1, one[0] * other[0] + one[1] * other[1] + one[2] * other[2])));

/** The CIE standard clear sky, low turbidity (CIE S 011 / ISO 15469, type 12: a -1, b -0.32, c 10, d -3, e 0.45; from memory). */
function skyLight(elevationDegrees: number, fromSun: number, zenithSun: number): number {
  const gradation = 1 - Math.exp(-0.32 / Math.max(0.02, Math.sin(elevationDegrees * DEGREE)));
  const indicatrix = (angle: number): number => 1 + 10 * (Math.exp(-3 * angle) - Math.exp((-3 * Math.PI) / 2)) + 0.45 * Math.cos(angle) ** 2;
  return (gradation * indicatrix(fromSun)) / ((1 - Math.exp(-0.32)) * indicatrix(zenithSun));
}

/** Optical depth straight up through the smoke, from a grid over the layer. */
function smokeField({ smoke, diffusivity, firstSigmaMetres }: PhotographOrder): (east: number, north: number) => number {
  if (smoke.length === 0) return () => 0;
  const margin = 600;
  const low = [Math.min(...smoke.map(({ east }) => east)) - margin, Math.min(...smoke.map(({ north }) => north)) - margin] as const;
  const high = [Math.max(...smoke.map(({ east }) => east)) + margin, Math.max(...smoke.map(({ north }) => north)) + margin] as const;
  const columns = Math.ceil((high[0] - low[0]) / CELL_METRES);
  const rows = Math.ceil((high[1] - low[1]) / CELL_METRES);
  const depth = new Float32Array(columns * rows);
  for (const { east, north, ageSeconds, kilograms } of smoke) {
    const sigma = smokeSigma({ diffusivity, firstSigmaMetres }, ageSeconds);
    const reach = Math.ceil((3.5 * sigma) / CELL_METRES);
    const [cx, cy] = [(east - low[0]) / CELL_METRES, (north - low[1]) / CELL_METRES];
    const scale = (EXTINCTION * kilograms) / (2 * Math.PI * sigma * sigma);
    for (let row = Math.max(0, Math.floor(cy) - reach); row <= Math.min(rows - 1, Math.floor(cy) + reach); row += 1) {
      for (let column = Math.max(0, Math.floor(cx) - reach); column <= Math.min(columns - 1, Math.floor(cx) + reach); column += 1) {
        const square = ((column + 0.5 - cx) ** 2 + (row + 0.5 - cy) ** 2) * CELL_METRES ** 2;
        depth[row * columns + column]! += scale * Math.exp(-square / (2 * sigma * sigma));
      }
    }
  }
  return (east, north) => {
    const x = (east - low[0]) / CELL_METRES - 0.5;
    const y = (north - low[1]) / CELL_METRES - 0.5;
    const [column, row] = [Math.floor(x), Math.floor(y)];
    if (column < 0 || row < 0 || column >= columns - 1 || row >= rows - 1) return 0;
    const [fx, fy] = [x - column, y - row];
    const index = row * columns + column;
    return (depth[index]! * (1 - fx) + depth[index + 1]! * fx) * (1 - fy) + (depth[index + columns]! * (1 - fx) + depth[index + columns + 1]! * fx) * fy;
  };
}

/** Thin cloud: value noise in five octaves, drawn out to one side as cirrus is. */
function cloudField(seed: number, most: number): (east: number, north: number) => number {
  if (most === 0) return () => 0;
  const lattice = (i: number, j: number, octave: number): number => {
    const value = Math.sin(i * 127.1 + j * 311.7 + octave * 74.7 + seed * 19.19) * 43_758.5453;
    return value - Math.floor(value);
  };
  const smooth = (share: number): number => share * share * (3 - 2 * share);
  return (east, north) => {
    let sum = 0;
    let size = 1;
    for (let octave = 0; octave < 5; octave += 1) {
      const x = (east / 9000) * 2 ** octave;
      const y = (north / 4000) * 2 ** octave;
      const [i, j] = [Math.floor(x), Math.floor(y)];
      const [fx, fy] = [smooth(x - i), smooth(y - j)];
      const low = lattice(i, j, octave) * (1 - fx) + lattice(i + 1, j, octave) * fx;
      const high = lattice(i, j + 1, octave) * (1 - fx) + lattice(i + 1, j + 1, octave) * fx;
      size /= 2;
      sum += size * (low * (1 - fy) + high * fy);
    }
    return most * Math.max(0, (sum - 0.35) / 0.65);
  };
}

/** Where a point of the layer, in metres east and north of the eye, truly falls in the picture. */
export function trulySeen(order: PhotographOrder, east: number, north: number): { readonly x: number; readonly y: number } {
  const { bearingDegrees, tiltDegrees, rollDegrees, focalPixels, distortion, widthPixels, heightPixels, layerMetres } = order;
  const azimuth = Math.atan2(east, north) - bearingDegrees * DEGREE;
  const flat = Math.hypot(east, north);
  const [level, right] = [flat * Math.cos(azimuth), flat * Math.sin(azimuth)];
  const ahead = level * Math.cos(tiltDegrees * DEGREE) + layerMetres * Math.sin(tiltDegrees * DEGREE);
  const above = layerMetres * Math.cos(tiltDegrees * DEGREE) - level * Math.sin(tiltDegrees * DEGREE);
  const roll = rollDegrees * DEGREE;
  const x = (focalPixels * (right * Math.cos(roll) - above * Math.sin(roll))) / ahead;
  const y = (focalPixels * (right * Math.sin(roll) + above * Math.cos(roll))) / ahead;
  const outward = 1 + (distortion * (x * x + y * y)) / (widthPixels ** 2 / 4 + heightPixels ** 2 / 4);
  return { x: widthPixels / 2 + x * outward, y: heightPixels / 2 - y * outward };
}
