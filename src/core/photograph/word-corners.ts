import type { LetterFrame } from '../paths/letter-frame.ts';
import type { FromEye } from './photo-camera.ts';
import type { WordSample } from './word-samples.ts';

/**
 * The corners of a word as it lies in the layer at a picture's moment, from the eye: lower left, lower right, upper right,
 * upper left as it is read.
 */
export function wordCorners(samples: readonly WordSample[], { facingRadians }: Pick<LetterFrame, 'facingRadians'>): FromEye[] {
  const [sine, cosine] = [Math.sin(facingRadians), Math.cos(facingRadians)];
  // Reading runs to the right of where the crowd looks; seen from below, letters' tops point towards the crowd.
  const along = samples.map(({ at }) => at.eastMetres * cosine - at.northMetres * sine);
  const upward = samples.map(({ at }) => -at.eastMetres * sine - at.northMetres * cosine);
  const [left, right, bottom, top] = [Math.min(...along), Math.max(...along), Math.min(...upward), Math.max(...upward)];
  const upMetres = samples.reduce((sum, { at }) => sum + at.upMetres, 0) / Math.max(1, samples.length);
  return (
    [
      [left, bottom],
      [right, bottom],
      [right, top],
      [left, top],
    ] as const
  ).map(([x, y]) => ({ eastMetres: x * cosine - y * sine, northMetres: -x * sine - y * cosine, upMetres }));
}
