/** A value with how sure it is. */
export interface Measured {
  readonly value: number;
  /** One standard error of the value. */
  readonly sigma: number;
  /** How many observations it rests on. */
  readonly count: number;
}

/** Observations farther than this many robust standard deviations from the median are left out. */
const OUTLIER_SIGMAS = 3.5;
/** The median absolute deviation of a normal distribution is 0.6745 of its standard deviation. */
const MAD_PER_SIGMA = 0.6745;

/**
 * The mean of what lies near the median, with its standard error; null for fewer than three observations. Blunders
 * beyond 3.5 robust standard deviations do not count (Iglewicz and Hoaglin 1993). `measuredMean([1, 2, 3, 100], 0)`
 * is 2 with a standard error of 0.577 from 3.
 *
 * @param leastSigma standard deviation of one observation that is not undercut, for observations alike by rounding
 */
export function measuredMean(observations: readonly number[], leastSigma: number): Measured | null {
  if (observations.length < 3) return null;
  const middle = median(observations);
  const spread = median(observations.map((value) => Math.abs(value - middle))) / MAD_PER_SIGMA;
  const near = observations.filter((value) => Math.abs(value - middle) <= OUTLIER_SIGMAS * Math.max(spread, leastSigma, 1e-9));
  if (near.length < 3) return null;
  const value = near.reduce((sum, each) => sum + each, 0) / near.length;
  const variance = near.reduce((sum, each) => sum + (each - value) ** 2, 0) / (near.length - 1);
  return { value, sigma: Math.max(leastSigma, Math.sqrt(variance)) / Math.sqrt(near.length), count: near.length };
}

/** The middle value, or the mean of the two in the middle; NaN is never given since the list is never empty here. */
function median(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
