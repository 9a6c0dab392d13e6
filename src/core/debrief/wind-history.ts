import type { WindVector } from '../earth/wind-vector.ts';
import { type Border, solveBorderedChain3 } from './chain-solve.ts';
import type { SmoothTrack } from './smooth-track.ts';

/** What is believed of wind and airspeed before the track is looked at. */
export interface WindPrior {
  readonly wind: WindVector;
  /** One standard deviation of each component. */
  readonly windSigmaMetresPerSecond: number;
  readonly airspeedMetresPerSecond: number;
  readonly airspeedSigmaMetresPerSecond: number;
}

/**
 * Wind and true airspeed over the whole of a flight, at times {@link NODE_SECONDS} apart and straight in between: flat
 * arrays of one length. The standard deviations say what the track could not tell: on a straight leg the wind along
 * it and the airspeed cannot be told apart.
 */
export interface WindHistory {
  readonly atSeconds: Float64Array;
  readonly windEastMetresPerSecond: Float64Array;
  readonly windNorthMetresPerSecond: Float64Array;
  readonly airspeedMetresPerSecond: Float64Array;
  readonly windEastSigmaMetresPerSecond: Float64Array;
  readonly windNorthSigmaMetresPerSecond: Float64Array;
  readonly airspeedSigmaMetresPerSecond: Float64Array;
  /** Drift of the air since the first node: the wind's integral. */
  readonly driftEastMetres: Float64Array;
  readonly driftNorthMetres: Float64Array;
  readonly converged: boolean;
  readonly iterations: number;
}

export const NODE_SECONDS = 5;
/** Growth of the wind's variance, m2/s3: a wind of 1.5 kt rms that forgets itself in five minutes. */
const WIND_GROWTH = 0.004;
/** A pilot's airspeed wanders about its mean by this share, and forgets where it was in about a minute. */
const AIRSPEED_WANDER_SHARE = 0.03;
const AIRSPEED_MEMORY_SECONDS = 60;
/** Errors of the smoothed velocity stay alike for this long at the rates at which aircraft turn. */
const CORRELATION_SECONDS = 1;
/** Slower than this nothing flies: the aircraft stands or taxies, and its track tells nothing of the wind. */
const SLOWEST_METRES_PER_SECOND = 15;
/** Beyond this many standard deviations an observation counts less (Huber 1964, 1.345 for 95 % efficiency; wider here). */
const HUBER = 2.5;
const LEAST_SIGMA = 0.3;
const MOST_ITERATIONS = 20;
/** A fiftieth of what the best track can tell. */
const CONVERGED_METRES_PER_SECOND = 5e-3;

/**
 * Wind and airspeed from the ground velocities of a whole track: at every moment `|ground velocity - wind|` is the
 * airspeed. The wind walks at random, the airspeed wanders about a mean of its own (Ornstein and Uhlenbeck's process).
 * Gauss and Newton's method on all moments and the mean together, with Huber's weights.
 *
 * On simulated flights of words of three and four letters (1 Hz, 3 m of noise, airspeed wandering by 3 %) the mean wind
 * comes out within 1 kt in 19 of 20; with velocities known exactly it is hardly better, since it is the airspeed's
 * wandering that hides the wind (tests/show/debrief.ts).
 *
 * @returns null when the track never moves at flying speed
 */
export function windHistory(track: SmoothTrack, prior: WindPrior): WindHistory | null {
  const observations = flyingIndexes(track);
  const first = observations[0];
  const last = observations.at(-1);
  if (first === undefined || last === undefined) return null;
  const startSeconds = track.atSeconds[first]!;
  const count = Math.max(2, Math.ceil((track.atSeconds[last]! - startSeconds) / NODE_SECONDS) + 1);
  const state = new Float64Array(3 * count);
  for (let node = 0; node < count; node += 1)
    state.set([prior.wind.eastMetresPerSecond, prior.wind.northMetresPerSecond, prior.airspeedMetresPerSecond], 3 * node);
  let home = prior.airspeedMetresPerSecond;
  let variances: Float64Array = new Float64Array(3 * count);
  let converged = false;
  let iterations = 0;
  while (!converged && iterations < MOST_ITERATIONS) {
    iterations += 1;
    const equations = priorEquations(state, count, prior, home);
    let lastSeconds = -Infinity;
    for (const index of observations) {
      addObservation(equations, state, track, index, track.atSeconds[index]! - lastSeconds, startSeconds, count);
      lastSeconds = track.atSeconds[index]!;
    }
    const solved = solveBorderedChain3(equations.diagonal, equations.below, equations.right, count, equations.border);
    home += solved.borderSolution;
    let greatest = 0;
    for (let index = 0; index < state.length; index += 1) {
      state[index] = state[index]! + solved.solution[index]!;
      greatest = Math.max(greatest, Math.abs(solved.solution[index]!));
    }
    variances = solved.variances;
    converged = greatest < CONVERGED_METRES_PER_SECOND;
  }
  return historyFrom(state, variances, count, startSeconds, converged, iterations);
}

interface Equations {
  readonly diagonal: Float64Array;
  readonly below: Float64Array;
  readonly right: Float64Array;
  /** The mean airspeed, on which every node's leans. */
  readonly border: Border;
}

/** Every index at flying speed, thinned to about one a second: nearer ones say the same again. */
function flyingIndexes(track: SmoothTrack): number[] {
  const indexes: number[] = [];
  let lastSeconds = -Infinity;
  track.atSeconds.forEach((atSeconds, index) => {
    const speed = Math.hypot(track.eastMetresPerSecond[index]!, track.northMetresPerSecond[index]!);
    if (speed < SLOWEST_METRES_PER_SECOND || atSeconds - lastSeconds < 0.9 * CORRELATION_SECONDS) return;
    indexes.push(index);
    lastSeconds = atSeconds;
  });
  return indexes;
}

/** What is known without the track: the first guess, and how wind and airspeed change from node to node. */
function priorEquations(state: Float64Array, count: number, prior: WindPrior, home: number): Equations {
  const diagonal = new Float64Array(9 * count);
  const below = new Float64Array(9 * count);
  const right = new Float64Array(3 * count);
  const guess = [prior.wind.eastMetresPerSecond, prior.wind.northMetresPerSecond];
  const windWeight = 1 / prior.windSigmaMetresPerSecond ** 2;
  const walkWeight = 1 / (WIND_GROWTH * NODE_SECONDS);
  for (let part = 0; part < 2; part += 1) {
    diagonal[4 * part] = windWeight;
    right[part] = windWeight * (guess[part]! - state[part]!);
    for (let node = 1; node < count; node += 1) {
      const step = state[3 * node + part]! - state[3 * node - 3 + part]!;
      addTo(diagonal, 9 * node - 9 + 4 * part, walkWeight);
      addTo(diagonal, 9 * node + 4 * part, walkWeight);
      below[9 * node + 4 * part] = -walkWeight;
      addTo(right, 3 * node - 3 + part, walkWeight * step);
      addTo(right, 3 * node + part, -walkWeight * step);
    }
  }
  const wanderVariance = (AIRSPEED_WANDER_SHARE * prior.airspeedMetresPerSecond) ** 2;
  const homeWeight = 1 / prior.airspeedSigmaMetresPerSecond ** 2;
  const kept = Math.exp(-NODE_SECONDS / AIRSPEED_MEMORY_SECONDS);
  const stepWeight = 1 / (wanderVariance * (1 - kept * kept));
  const row = new Float64Array(3 * count);
  let corner = homeWeight + 1 / wanderVariance;
  let homeRight = homeWeight * (prior.airspeedMetresPerSecond - home) + (state[2]! - home) / wanderVariance;
  addTo(diagonal, 8, 1 / wanderVariance);
  addTo(right, 2, (home - state[2]!) / wanderVariance);
  row[2] = -1 / wanderVariance;
  for (let node = 1; node < count; node += 1) {
    const at = 3 * node + 2;
    const miss = state[at]! - kept * state[at - 3]! - (1 - kept) * home;
    addTo(diagonal, 9 * node - 1, stepWeight * kept * kept);
    addTo(diagonal, 9 * node + 8, stepWeight);
    below[9 * node + 8] = -stepWeight * kept;
    addTo(right, at - 3, stepWeight * kept * miss);
    addTo(right, at, -stepWeight * miss);
    addTo(row, at - 3, stepWeight * kept * (1 - kept));
    addTo(row, at, -stepWeight * (1 - kept));
    corner += stepWeight * (1 - kept) ** 2;
    homeRight += stepWeight * (1 - kept) * miss;
  }
  return { diagonal, below, right, border: { corner, row, right: homeRight } };
}

function addTo(values: Float64Array, index: number, value: number): void {
  values[index] = values[index]! + value;
}

/** One array for a hundred thousand calls. */
const SLOPES = Float64Array.of(0, 0, 1);

function addObservation(
  { diagonal, below, right }: Equations,
  state: Float64Array,
  track: SmoothTrack,
  index: number,
  apartSeconds: number,
  startSeconds: number,
  count: number,
): void {
  const place = Math.min(count - 1.000_001, Math.max(0, (track.atSeconds[index]! - startSeconds) / NODE_SECONDS));
  const node = Math.floor(place);
  const share = place - node;
  const own = 3 * node;
  const east = track.eastMetresPerSecond[index]! - state[own]! * (1 - share) - state[own + 3]! * share;
  const north = track.northMetresPerSecond[index]! - state[own + 1]! * (1 - share) - state[own + 4]! * share;
  const speed = Math.max(1, Math.sqrt(east * east + north * north));
  const residual = speed - state[own + 2]! * (1 - share) - state[own + 5]! * share;
  const sigma = Math.max(LEAST_SIGMA, track.velocitySigmaMetresPerSecond[index]!);
  const huber = Math.min(1, HUBER / Math.abs(residual / sigma));
  const weight = (huber * Math.min(1, apartSeconds / CORRELATION_SECONDS)) / (sigma * sigma);
  // The residual falls by this for each metre per second more of east wind, north wind, airspeed.
  SLOPES[0] = east / speed;
  SLOPES[1] = north / speed;
  for (let row = 0; row < 3; row += 1) {
    const weighed = weight * SLOPES[row]!;
    right[own + row] = right[own + row]! + weighed * (1 - share) * residual;
    right[own + 3 + row] = right[own + 3 + row]! + weighed * share * residual;
    for (let column = 0; column < 3; column += 1) {
      const product = weighed * SLOPES[column]!;
      const at = 9 * node + 3 * row + column;
      diagonal[at] = diagonal[at]! + product * (1 - share) ** 2;
      diagonal[at + 9] = diagonal[at + 9]! + product * share ** 2;
      below[at + 9] = below[at + 9]! + product * share * (1 - share);
    }
  }
}

function historyFrom(state: Float64Array, variances: Float64Array, count: number, startSeconds: number, converged: boolean, iterations: number): WindHistory {
  const column = (part: number): Float64Array => Float64Array.from({ length: count }, (_, node) => state[3 * node + part]!);
  const sigma = (part: number): Float64Array => Float64Array.from({ length: count }, (_, node) => Math.sqrt(variances[3 * node + part]!));
  const windEastMetresPerSecond = column(0);
  const windNorthMetresPerSecond = column(1);
  return {
    atSeconds: Float64Array.from({ length: count }, (_, node) => startSeconds + node * NODE_SECONDS),
    windEastMetresPerSecond,
    windNorthMetresPerSecond,
    airspeedMetresPerSecond: column(2),
    windEastSigmaMetresPerSecond: sigma(0),
    windNorthSigmaMetresPerSecond: sigma(1),
    airspeedSigmaMetresPerSecond: sigma(2),
    driftEastMetres: integral(windEastMetresPerSecond),
    driftNorthMetres: integral(windNorthMetresPerSecond),
    converged,
    iterations,
  };
}

function integral(values: Float64Array): Float64Array {
  const sums = new Float64Array(values.length);
  for (let node = 1; node < values.length; node += 1) sums[node] = sums[node - 1]! + ((values[node - 1]! + values[node]!) / 2) * NODE_SECONDS;
  return sums;
}
