import type { StrokeSample } from './stroke-sample.ts';

/** A move of the air-mass frame. */
export interface FrameOffset {
  readonly eastMetres: number;
  readonly northMetres: number;
}

/** How far off its line a flown stretch lies by chance, and how long a stretch is before it forgets where it was. */
const STRETCH_SIGMA_METRES = 15;
const STRETCH_METRES = 300;

/**
 * The move that takes planned strokes to the flown ones with the least sum of squared cross-track distances (a linear
 * least squares problem in the two components, since a move changes a cross-track by its part along the path's
 * normal). What is believed beforehand keeps a single straight stroke from being moved onto its line: a move of
 * `priorMetres` in each component, one standard deviation, about none.
 */
export function frameOffset(samples: readonly StrokeSample[], priorMetres: number): FrameOffset {
  const prior = 1 / (priorMetres * priorMetres);
  let [ee, en, nn, e, n] = [prior, 0, prior, 0, 0];
  samples.forEach(({ crossTrackMetres, pathDirectionRadians, alongMetres }, index) => {
    const stepMetres = Math.min(STRETCH_METRES, Math.abs(alongMetres - (samples[index - 1]?.alongMetres ?? alongMetres)));
    const weight = stepMetres / STRETCH_METRES / (STRETCH_SIGMA_METRES * STRETCH_SIGMA_METRES);
    // The unit vector to the right of the path.
    const east = Math.sin(pathDirectionRadians);
    const north = -Math.cos(pathDirectionRadians);
    ee += weight * east * east;
    en += weight * east * north;
    nn += weight * north * north;
    e += weight * east * crossTrackMetres;
    n += weight * north * crossTrackMetres;
  });
  const determinant = ee * nn - en * en;
  return { eastMetres: (e * nn - n * en) / determinant, northMetres: (n * ee - e * en) / determinant };
}
