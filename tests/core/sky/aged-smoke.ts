import { createCanvas } from '@napi-rs/canvas';
import type { ShearVector } from '../../../src/core/earth/wind-profile.ts';
import { type LetterFrame, letterFromAir } from '../../../src/core/paths/letter-frame.ts';
import type { SmokeCase } from '../../../src/core/sky/smoke-range.ts';
import { type Trail, trailPieces } from '../../../src/core/sky/trail.ts';
import { normalFrom, uniformFrom } from '../../flight/random.ts';

/** How smoke of some age is turned into a picture. */
export interface AgedPicture {
  readonly letterHeightMetres: number;
  readonly frame: LetterFrame;
  readonly shear: ShearVector;
  readonly smoke: SmokeCase;
  readonly atSeconds: number;
  /** 48 by default. */
  readonly letterHeightPixels?: number;
  /** By how much of a pixel the picture is moved to the right and down, 0 to 1; 0 by default. */
  readonly offsetPixels?: readonly [right: number, down: number];
  /** Of each pixel, as a contrast: the grain of a real sky and a real eye. 0.02 by default. */
  readonly grain?: number;
  /** Standard deviation of the sky's own unevenness, as a contrast, in patches of half to twice a letter; 0 by default. */
  readonly patches?: number;
  readonly seed?: number;
}

/** A picture an eye has grown used to: greys from 0, darkest, to 255, row by row from the top left. */
export interface SeenPicture {
  readonly grey: Float64Array;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

interface Puff {
  readonly x: number;
  readonly y: number;
  /** Square metres of cover: mass times extinction. */
  readonly cover: number;
  /** Inverse covariance and its determinant's root. */
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  readonly root: number;
}

/**
 * Smoke of some age as seen from straight below, dark on white. Each bit of trail is a puff of its own, spread as
 * diffusion and shear spread a puff in both level directions (not as the app reckons a whole stroke's width); depths
 * add, contrast follows from the depth, and the sky's patches and grain lie over it.
 */
export function seeAgedSmoke(trails: readonly Trail[], picture: AgedPicture): SeenPicture {
  const { letterHeightMetres, letterHeightPixels = 48, offsetPixels = [0, 0], grain = 0.02, patches = 0, seed = 1 } = picture;
  const puffs = trails.flatMap((trail) => puffsOf(trail, picture));
  const pixelsPerMetre = letterHeightPixels / letterHeightMetres;
  const margin = 0.6 * letterHeightMetres;
  const west = Math.min(...puffs.map((puff) => puff.x)) - margin - offsetPixels[0] / pixelsPerMetre;
  const top = Math.max(...puffs.map((puff) => puff.y)) + margin + offsetPixels[1] / pixelsPerMetre;
  const width = Math.ceil((Math.max(...puffs.map((puff) => puff.x)) + margin - west) * pixelsPerMetre);
  const height = Math.ceil((top - Math.min(...puffs.map((puff) => puff.y)) + margin) * pixelsPerMetre);
  const depth = new Float64Array(width * height);
  for (const puff of puffs) {
    // Four deviations hold all but a ten-thousandth of it.
    const reachRight = 4 * Math.sqrt(puff.yy) * puff.root * pixelsPerMetre;
    const reachDown = 4 * Math.sqrt(puff.xx) * puff.root * pixelsPerMetre;
    const column = (puff.x - west) * pixelsPerMetre;
    const row = (top - puff.y) * pixelsPerMetre;
    for (let j = Math.max(0, Math.floor(row - reachDown)); j < Math.min(height, row + reachDown); j += 1) {
      for (let i = Math.max(0, Math.floor(column - reachRight)); i < Math.min(width, column + reachRight); i += 1) {
        const dx = (i + 0.5 - column) / pixelsPerMetre;
        const dy = -(j + 0.5 - row) / pixelsPerMetre;
        const square = puff.xx * dx * dx + 2 * puff.xy * dx * dy + puff.yy * dy * dy;
        if (square < 16) depth[j * width + i] = (depth[j * width + i] ?? 0) + (puff.cover / (2 * Math.PI * puff.root)) * Math.exp(-square / 2);
      }
    }
  }
  const uniform = uniformFrom(seed);
  const sky = patches === 0 ? () => 0 : patchySky(uniform, patches, letterHeightPixels);
  const normal = normalFrom(uniform);
  const bright = Float64Array.from(depth, (each, index) => Math.exp(-each) + sky(index % width, Math.floor(index / width)) + grain * normal());
  return { grey: adapted(bright, width, height), widthPixels: width, heightPixels: height };
}

/**
 * What was seen, as PNG.
 *
 * @param traced between 0 and 1: what is darker is black, the rest white, as if traced; without it all greys are kept
 */
export function pngFromSeen({ grey, widthPixels, heightPixels }: SeenPicture, traced?: number): Buffer {
  const canvas = createCanvas(widthPixels, heightPixels);
  const context = canvas.getContext('2d');
  const image = context.createImageData(widthPixels, heightPixels);
  for (const [index, each] of grey.entries()) {
    const shown = traced === undefined ? each : each < 255 * (1 - traced) ? 0 : 255;
    image.data.set([shown, shown, shown, 255], 4 * index);
  }
  context.putImageData(image, 0, 0);
  return canvas.toBuffer('image/png');
}

/** Sixteen waves of chance, half to twice a letter long, that together deviate by `patches`. */
function patchySky(uniform: () => number, patches: number, letterHeightPixels: number): (column: number, row: number) => number {
  const waves = Array.from({ length: 16 }, () => {
    const direction = 2 * Math.PI * uniform();
    const turns = (2 * Math.PI) / (letterHeightPixels * 2 ** (2 * uniform() - 1));
    return { across: turns * Math.cos(direction), down: turns * Math.sin(direction), phase: 2 * Math.PI * uniform() };
  });
  const height = patches * Math.sqrt(2 / waves.length);
  return (column, row) => waves.reduce((sum, { across, down, phase }) => sum + height * Math.sin(across * column + down * row + phase), 0);
}

/** As an eye that has grown used to the scene: a little averaged, its darkest black and its brightest white. */
function adapted(bright: Float64Array, width: number, height: number): Float64Array {
  const mean = new Float64Array(bright.length);
  for (let row = 0; row < height; row += 1) {
    for (let column = 0; column < width; column += 1) {
      let [sum, count] = [0, 0];
      for (let j = Math.max(0, row - 1); j <= Math.min(height - 1, row + 1); j += 1) {
        for (let i = Math.max(0, column - 1); i <= Math.min(width - 1, column + 1); i += 1) {
          sum += bright[j * width + i] ?? 0;
          count += 1;
        }
      }
      mean[row * width + column] = sum / count;
    }
  }
  const sorted = mean.toSorted();
  const darkest = sorted[Math.floor(0.01 * sorted.length)] ?? 0;
  const brightest = sorted[Math.floor(0.95 * sorted.length)] ?? 1;
  return mean.map((each) => Math.max(0, Math.min(255, (255 * (each - darkest)) / (brightest - darkest))));
}

function puffsOf(trail: Trail, { frame, shear, smoke, atSeconds }: AgedPicture): Puff[] {
  return trailPieces(trail).flatMap((piece): Puff[] => {
    const age = atSeconds - piece.laidAtSeconds;
    if (age <= 0) return [];
    const { air } = smoke;
    const own = air.initialHorizontalMetres ** 2 + 2 * air.horizontalSquareMetresPerSecond * age;
    const sheared = air.initialVerticalMetres ** 2 * age * age + (2 / 3) * air.verticalSquareMetresPerSecond * age ** 3;
    // The shear as it lies in the picture.
    const tip = letterFromAir(
      { airEastMetres: shear.eastPerSecond, airNorthMetres: shear.northPerSecond },
      { ...frame, middle: { airEastMetres: 0, airNorthMetres: 0 } },
    );
    const xx = own + sheared * tip.xMetres ** 2;
    const yy = own + sheared * tip.yMetres ** 2;
    const xy = sheared * tip.xMetres * tip.yMetres;
    const determinant = xx * yy - xy * xy;
    const middle = letterFromAir(
      {
        airEastMetres: (piece.from.airEastMetres + piece.to.airEastMetres) / 2,
        airNorthMetres: (piece.from.airNorthMetres + piece.to.airNorthMetres) / 2,
      },
      frame,
    );
    return [
      {
        x: middle.xMetres,
        y: middle.yMetres,
        cover: trail.kilogramsPerMetre * piece.lengthMetres * smoke.extinctionSquareMetresPerKilogram,
        xx: yy / determinant,
        xy: -xy / determinant,
        yy: xx / determinant,
        root: Math.sqrt(determinant),
      },
    ];
  });
}
