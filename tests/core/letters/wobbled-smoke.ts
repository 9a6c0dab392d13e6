import { type LetterPath, type LetterPoint, letterPathLengthMetres, letterPoseAt } from '../../../src/core/letters/letter-path.ts';
import { uniformFrom } from '../../flight/random.ts';

const STEP_METRES = 20;

/**
 * The strokes as a hand flies them: each is shifted as a whole and weaves about its line in three waves of 300 to
 * 1,200 m, so that the distance from where it should lie is about `rmsMetres` in the mean square.
 */
export function wobbledSmoke(paths: readonly LetterPath[], rmsMetres: number, seed: number): LetterPoint[][] {
  const uniform = uniformFrom(seed);
  return paths.map((path) => {
    const waves = [0, 1, 2].map(() => ({ phase: 2 * Math.PI * uniform(), perMetre: (2 * Math.PI) / (300 + 900 * uniform()) }));
    const shiftX = (2 * uniform() - 1) * rmsMetres;
    const shiftY = (2 * uniform() - 1) * rmsMetres;
    const lengthMetres = letterPathLengthMetres(path);
    const steps = Math.ceil(lengthMetres / STEP_METRES);
    return Array.from({ length: steps + 1 }, (_, step) => {
      const alongMetres = (lengthMetres * step) / steps;
      const pose = letterPoseAt(path, alongMetres);
      const sum = waves.reduce((total, { phase, perMetre }) => total + Math.sin(phase + perMetre * alongMetres), 0);
      const asideMetres = sum * rmsMetres * Math.sqrt(2 / 3);
      return {
        xMetres: pose.xMetres - asideMetres * Math.sin(pose.directionRadians) + shiftX,
        yMetres: pose.yMetres + asideMetres * Math.cos(pose.directionRadians) + shiftY,
      };
    });
  });
}
