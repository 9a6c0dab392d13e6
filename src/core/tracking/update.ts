import { signedRadians } from '../units/angle.ts';
import { type Estimate, STATE, STATE_SIZE } from './estimate.ts';
import { inverse2, product, transposed } from './matrix.ts';

/** A pair of numbers measured at the estimate's time, with what the estimate says of them. */
interface PairMeasurement {
  readonly innovation: readonly [number, number];
  /** 2 x 9. */
  readonly observation: readonly number[];
  readonly sigma: number;
}

export interface Update {
  readonly estimate: Estimate;
  /** Squared Mahalanobis distance of the measurement from the prediction: chi-square, two degrees of freedom. */
  readonly chiSquare: number;
}

/** Position in the site frame, each component with the same standard deviation. */
export function updatedByPosition(estimate: Estimate, eastMetres: number, northMetres: number, sigmaMetres: number): Update {
  const observation = new Array<number>(2 * STATE_SIZE).fill(0);
  observation[STATE.east] = 1;
  observation[STATE_SIZE + STATE.north] = 1;
  return updatedByPair(estimate, {
    innovation: [eastMetres - estimate.mean[STATE.east]!, northMetres - estimate.mean[STATE.north]!],
    observation,
    sigma: sigmaMetres,
  });
}

/** Velocity over the ground: airspeed along the direction of flight plus wind. */
export function updatedByGroundVelocity(estimate: Estimate, eastMetresPerSecond: number, northMetresPerSecond: number, sigmaMetresPerSecond: number): Update {
  const cosine = Math.cos(estimate.mean[STATE.direction]!);
  const sine = Math.sin(estimate.mean[STATE.direction]!);
  const airspeed = estimate.mean[STATE.airspeed]!;
  const observation = new Array<number>(2 * STATE_SIZE).fill(0);
  observation[STATE.direction] = -airspeed * sine;
  observation[STATE.airspeed] = cosine;
  observation[STATE.windEast] = 1;
  observation[STATE_SIZE + STATE.direction] = airspeed * cosine;
  observation[STATE_SIZE + STATE.airspeed] = sine;
  observation[STATE_SIZE + STATE.windNorth] = 1;
  return updatedByPair(estimate, {
    innovation: [
      eastMetresPerSecond - airspeed * cosine - estimate.mean[STATE.windEast]!,
      northMetresPerSecond - airspeed * sine - estimate.mean[STATE.windNorth]!,
    ],
    observation,
    sigma: sigmaMetresPerSecond,
  });
}

/** The direction of flight, as far as a pilot can be believed to hold the heading that is shown. */
export function updatedByHeldHeading(estimate: Estimate, directionRadians: number, sigmaRadians: number): Update {
  const observation = new Array<number>(2 * STATE_SIZE).fill(0);
  observation[STATE.direction] = 1;
  const innovation = signedRadians(directionRadians - estimate.mean[STATE.direction]!);
  // The second of the pair observes nothing.
  return updatedByPair(estimate, { innovation: [innovation, 0], observation, sigma: sigmaRadians });
}

/** Kalman update in Joseph's form, which keeps the covariance symmetric and positive. */
function updatedByPair(estimate: Estimate, { innovation, observation, sigma }: PairMeasurement): Update {
  const n = STATE_SIZE;
  const spread = product(estimate.covariance, transposed(observation, 2, n), n, n, 2);
  const innovationCovariance = product(observation, spread, 2, n, 2);
  innovationCovariance[0]! += sigma * sigma;
  innovationCovariance[3]! += sigma * sigma;
  const inverse = inverse2(innovationCovariance);
  const [first, second] = innovation;
  const chiSquare = first * (inverse[0]! * first + inverse[1]! * second) + second * (inverse[2]! * first + inverse[3]! * second);

  const gain = product(spread, inverse, n, 2, 2);
  const mean = estimate.mean.map((value, row) => value + gain[row * 2]! * first + gain[row * 2 + 1]! * second);
  mean[STATE.direction] = signedRadians(mean[STATE.direction]!);
  const keep = product(gain, observation, n, 2, n).map((value, index) => (index % (n + 1) === 0 ? 1 : 0) - value);
  const covariance = product(product(keep, estimate.covariance, n, n, n), transposed(keep, n, n), n, n, n);
  const noise = product(gain, transposed(gain, n, 2), n, 2, n);
  return {
    chiSquare,
    estimate: { ...estimate, mean, covariance: covariance.map((value, index) => value + noise[index]! * sigma * sigma) },
  };
}
