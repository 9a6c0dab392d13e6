import { addRow, emptyEquations, inverseOf, times } from './least-squares.ts';

/** A line of smoke across: its deviation and middle, in the unit of the places, and how deep it looks. */
export interface ProfileFit {
  readonly sigma: number;
  readonly sigmaOfSigma: number;
  readonly middle: number;
  /** Brightness of the middle over the sky's. */
  readonly contrast: number;
}

const ROUNDS = 25;
const STEP = 1e-4;

/**
 * Fits brightness across a line of smoke: a sky that changes evenly, and light from smoke whose optical depth is a normal
 * distribution, `A (1 - exp(-d exp(-x^2 / 2 s^2)))`: deep smoke is as bright in its middle as smoke can be, and would look
 * wider than it is to a fit of the bell alone. How deep it is comes from the oil burnt; the fit may leave that by a factor.
 *
 * @param places across the line
 * @param believed the deviation to begin with, and the depth with the deviation of its logarithm
 * @returns null when no line of smoke stands out
 */
export function fitProfile(
  places: readonly number[],
  brightness: readonly number[],
  believed: { readonly sigma: number; readonly depth: number; readonly depthSigma: number },
): ProfileFit | null {
  const low = Math.min(...brightness);
  const high = Math.max(...brightness);
  if (!(high > low)) return null;
  const logDepth = Math.log(believed.depth);
  const scale = 1 / Math.max(1e-6, ((high - low) * 0.05) ** 2);
  // Sky, its slope, brightness of deep smoke over the sky, middle, logarithms of deviation and depth.
  let vector = [low, 0, (high - low) / (1 - Math.exp(-believed.depth)), 0, Math.log(believed.sigma), logDepth];
  const model = ([sky, slope, bright, middle, logSigma, depth]: readonly number[], x: number): number =>
    sky! + slope! * x + bright! * (1 - Math.exp(-Math.exp(depth!) * Math.exp(-((x - middle!) ** 2) / (2 * Math.exp(2 * logSigma!)))));
  const costOf = (tried: readonly number[]): number =>
    places.reduce((sum, x, index) => sum + (brightness[index]! - model(tried, x)) ** 2, 0) * scale + ((tried[5]! - logDepth) / believed.depthSigma) ** 2;
  let cost = costOf(vector);
  let damping = 1e-2;
  let inverse: Float64Array | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const equations = emptyEquations(vector.length);
    places.forEach((x, index) => {
      const here = model(vector, x);
      const row = vector.map(
        (value, at) =>
          (model(
            vector.map((each, other) => (other === at ? value + STEP : each)),
            x,
          ) -
            here) /
          STEP,
      );
      addRow(equations, row, brightness[index]! - here, scale);
    });
    addRow(equations, [0, 0, 0, 0, 0, 1], logDepth - vector[5]!, 1 / believed.depthSigma ** 2);
    inverse = inverseOf(equations.matrix, vector.length);
    for (let index = 0; index < vector.length; index++) equations.matrix[index * vector.length + index]! *= 1 + damping;
    const damped = inverseOf(equations.matrix, vector.length);
    if (damped === null) break;
    const step = times(damped, equations.right);
    const tried = vector.map((value, index) => value + step[index]!);
    const then = costOf(tried);
    if (then < cost) {
      [vector, cost] = [tried, then];
      damping = Math.max(1e-6, damping / 3);
      if (step.every((value) => Math.abs(value) < 1e-4)) break;
    } else damping *= 6;
  }
  const sigma = Math.exp(vector[4]!);
  const contrast = vector[2]! * (1 - Math.exp(-Math.exp(vector[5]!)));
  const rest = places.reduce((sum, x, index) => sum + (brightness[index]! - model(vector, x)) ** 2, 0) / Math.max(1, places.length - vector.length);
  if (inverse === null || !(contrast > 3 * Math.sqrt(rest)) || !Number.isFinite(sigma)) return null;
  return { sigma, sigmaOfSigma: sigma * Math.sqrt(Math.max(0, inverse[4 * vector.length + 4]! * rest * scale)), middle: vector[3]!, contrast };
}
