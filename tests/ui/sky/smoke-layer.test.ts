import { createCanvas } from '@napi-rs/canvas';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import type { SkyMoment } from '../../../src/core/sky/sky-picture.ts';
import { SMOKE_RANGE } from '../../../src/core/sky/smoke-range.ts';
import type { Trail } from '../../../src/core/sky/trail.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { paintSmoke } from '../../../src/ui/sky/smoke-layer.ts';

const [WIDTH, HEIGHT] = [320, 200];
const SKY = [40, 90, 160] as const;

beforeAll(() => vi.stubGlobal('OffscreenCanvas', createCanvas));
afterAll(() => vi.unstubAllGlobals());

const moment: SkyMoment = {
  atSeconds: 120,
  eye: { eastMetres: 0, northMetres: 0, upMetres: 0 },
  wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
  shear: { eastPerSecond: 0, northPerSecond: 0 },
  layerAboveSiteMetres: 3000,
  visibilityMetres: null,
  smoke: SMOKE_RANGE.likely,
  camera: { azimuthRadians: 0, elevationRadians: radiansFromDegrees(45), fieldRadians: radiansFromDegrees(60), widthPixels: WIDTH, heightPixels: HEIGHT },
};

/** Smoke straight from one place over the site to another, kilometres to the east and north. */
function trail(from: readonly [number, number], to: readonly [number, number]): Trail {
  const count = 20;
  const between = (one: number, other: number, index: number): number => 1000 * (one + ((other - one) * index) / count);
  return {
    shipIndex: 0,
    letterIndex: 0,
    character: 'I',
    kilogramsPerMetre: 0.006,
    heightStepMetres: 0,
    points: Array.from({ length: count + 1 }, (_, index) => ({
      airEastMetres: between(from[0], to[0], index),
      airNorthMetres: between(from[1], to[1], index),
      laidAtSeconds: index,
    })),
  };
}

const CROSS = [trail([-0.4, 3], [0.4, 3.4]), trail([0.3, 2.8], [-0.2, 3.6])];
const FAR_AND_WIDE = [trail([-3, 2], [3, 2]), trail([-3, 6], [3, 6])];

function painted(trails: readonly Trail[], density: number): { readonly bytes: Uint8ClampedArray; changed(left: number, right: number): number } {
  const context = createCanvas(WIDTH * density, HEIGHT * density).getContext('2d');
  context.setTransform(density, 0, 0, density, 0, 0);
  context.fillStyle = `rgb(${SKY.join(' ')})`;
  context.fillRect(0, 0, WIDTH, HEIGHT);
  expect(paintSmoke(context as unknown as CanvasRenderingContext2D, trails, moment, 'white')).toBe(true);
  const bytes = context.getImageData(0, 0, WIDTH * density, HEIGHT * density).data;
  return {
    bytes,
    changed(left, right) {
      let count = 0;
      for (let pixel = 0; pixel < bytes.length / 4; pixel += 1) {
        const x = (pixel % (WIDTH * density)) / density;
        if (x >= left && x < right && SKY.some((part, index) => bytes[4 * pixel + index] !== part)) count += 1;
      }
      return count;
    },
  };
}

it.each([1, 1.5, 2])('paints the same smoke whatever was painted before it, at %s pixels to each of the picture’s', (density) => {
  const first = painted(CROSS, density);
  expect(first.changed(0, WIDTH)).toBeGreaterThan(500 * density);
  painted(FAR_AND_WIDE, density);
  expect(Buffer.compare(Buffer.from(painted(CROSS, density).bytes), Buffer.from(first.bytes))).toBe(0);
});

it('leaves the sky as it was where no smoke is, and all of it where there is none', () => {
  painted(FAR_AND_WIDE, 1.5);
  expect(painted([], 1.5).changed(0, WIDTH)).toBe(0);
  const { changed } = painted(CROSS, 1.5);
  expect(changed(0, WIDTH / 4) + changed((3 * WIDTH) / 4, WIDTH)).toBe(0);
});

it('covers more where trails cross than either covers alone', () => {
  const at = (bytes: Uint8ClampedArray, pixel: number): number => bytes[4 * pixel] ?? 0;
  const [both, one, other] = [painted(CROSS, 1), painted(CROSS.slice(0, 1), 1), painted(CROSS.slice(1), 1)].map(({ bytes }) => bytes);
  const crossing = Array.from({ length: WIDTH * HEIGHT }, (_, pixel) => pixel).filter(
    (pixel) => at(one!, pixel) > SKY[0] + 40 && at(other!, pixel) > SKY[0] + 40,
  );
  expect(crossing.length).toBeGreaterThan(3);
  for (const pixel of crossing) {
    // What shines through the one is covered by the other.
    const clear = (bytes: Uint8ClampedArray): number => (255 - at(bytes, pixel)) / (255 - SKY[0]);
    expect(Math.abs(clear(both!) - clear(one!) * clear(other!))).toBeLessThan(0.02);
  }
});

it('is left out where nothing can be painted off the page', () => {
  vi.stubGlobal('OffscreenCanvas', undefined);
  const context = createCanvas(WIDTH, HEIGHT).getContext('2d');
  expect(paintSmoke(context as unknown as CanvasRenderingContext2D, CROSS, moment, 'white')).toBe(false);
  vi.stubGlobal('OffscreenCanvas', createCanvas);
});
