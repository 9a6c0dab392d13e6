import { addRow, emptyEquations, inverseOf, times } from './least-squares.ts';
import { smokeSigmaMetres } from './smoke-width.ts';
import {
  middleScale,
  type PicturePose,
  placesShown,
  poseOf,
  type PosePrior,
  type SampleShown,
  samplesShown,
  STEPS,
  UNKNOWNS,
  type Unknown,
  vectorOf,
} from './picture-pose.ts';
import type { RidgeMap } from './ridges.ts';
import type { WordSample } from './word-samples.ts';

/** A word laid over a picture. */
export interface WordAligned {
  readonly pose: PicturePose;
  /** Standard deviations of the unknowns, and their covariance in the order of `UNKNOWNS`. */
  readonly sigma: PicturePose;
  readonly covariance: Float64Array;
  /** What the picture told nothing of: it stays where it was believed to be. */
  readonly untold: readonly Unknown[];
  /** For each bit of the word, how far aside of it smoke lies, in pixels to its left as drawn; null where there is none. */
  readonly offsetsPixels: readonly (number | null)[];
  readonly shown: readonly (SampleShown | null)[];
  /** Root mean square of the offsets, over letter heights. */
  readonly residualHeights: number;
  /** Share of the word's bits that lie in the picture and on smoke. */
  readonly foundShare: number;
  /** Share of the smoke in the word's neighbourhood that the word does not explain. */
  readonly strangeShare: number;
}

/** How far aside of the word smoke is looked for, in letter heights, from first to last. */
const REACHES_HEIGHTS = [0.22, 0.16, 0.11, 0.075, 0.05, 0.04];
/** Nor nearer than this to smoke that has grown wide, in deviations of its width: its middle is no sharper. */
const REACH_SIGMAS = 0.5;
const ROUNDS = 8;
/** Smoke runs along the stroke to within this. */
const MOST_CROOKED_RADIANS = 0.6;
/** Pixels a metre where nothing of the word is shown. */
const LEAST_SCALE = 1e-3;
/** Ridges weaker than this are the sky's. */
const LEAST_STRENGTH = 3;
/** The middle of smoke is no nearer its line than this, in pixels, and in deviations of its width: it drifts and billows. */
const LEAST_SIGMA_PIXELS = 0.5;
const BILLOW_SHARE = 0.2;
/** Bits of a stroke nearer than this to each other err alike: a letter's part, and some deviations of the smoke. */
const ALIKE_HEIGHTS = 0.25;
const ALIKE_SIGMAS = 5;
/** A line is the word's own within this of it, or within some deviations of smoke that has grown wider than that. */
const OWN_HEIGHTS = 0.1;
const OWN_SIGMAS = 1;
/** A deviation that shrinks by less than this was not told by the picture. */
const TOLD_SHARE = 0.7;

/**
 * Lays a word over the smoke in a picture: from a first placing, each bit of a stroke is drawn to the strongest line
 * aside of it that runs along, within a reach that narrows, and all unknowns are solved for together by weighted least
 * squares with what is believed beforehand (iterated closest points along normals: Chen and Medioni 1992, Image and
 * Vision Computing 10; weights by Tukey's biweight).
 *
 * @param letterHeightMetres the word's letters
 */
export function alignWord(samples: readonly WordSample[], map: RidgeMap, prior: PosePrior, from: PicturePose, letterHeightMetres: number): WordAligned {
  const mean = vectorOf(prior.mean);
  const weights = vectorOf(prior.sigma).map((sigma) => 1 / sigma ** 2);
  const count = mean.length;
  const sigmasMetres = samples.map(({ ageSeconds }) => smokeSigmaMetres(ageSeconds));
  const stepMetres = Math.abs((samples[1]?.alongMetres ?? 1) - (samples[0]?.alongMetres ?? 0)) || 1;
  let vector = vectorOf(from);
  let covariance: Float64Array = new Float64Array(count * count);
  let heightPixels = 1;
  let shown: (SampleShown | null)[] = [];
  let offsets: (Found | null)[] = [];
  for (const [level, reach] of REACHES_HEIGHTS.entries()) {
    for (let round = 0; round < ROUNDS; round++) {
      shown = samplesShown(samples, poseOf(vector), map.widthPixels, map.heightPixels);
      heightPixels = letterHeightMetres * (middleScale(shown) || LEAST_SCALE);
      const reachPixels = Math.max(2, reach * heightPixels);
      const reaches = shown.map((at, index) => (at === null ? 0 : Math.max(reachPixels, REACH_SIGMAS * sigmasMetres[index]! * at.pixelsPerMetreAcross)));
      offsets = shown.map((at, index) => (at === null ? null : lineBeside(map, at, reaches[index]!)));
      const moved = STEPS.map((step, unknown) =>
        placesShown(samples, poseOf(vector.map((value, index) => (index === unknown ? value + step : value))), map.widthPixels, map.heightPixels),
      );
      const sigmaPixels = Math.max(LEAST_SIGMA_PIXELS, robustSigma(offsets.flatMap((found) => (found === null ? [] : [found.offset]))));
      const equations = emptyEquations(count);
      weights.forEach((weight, index) => {
        addRow(
          equations,
          mean.map((_, other) => (other === index ? 1 : 0)),
          mean[index]! - vector[index]!,
          weight,
        );
      });
      offsets.forEach((found, index) => {
        const tukey = Math.min(reaches[index]! * 1.1, Math.max(2.5, 4.7 * sigmaPixels));
        const at = shown[index];
        if (found === null || at == null) return;
        const off = found.offset / tukey;
        if (Math.abs(off) >= 1) return;
        const sigmaMetres = sigmasMetres[index]!;
        const variance = sigmaPixels ** 2 + (BILLOW_SHARE * sigmaMetres * at.pixelsPerMetreAcross) ** 2;
        const alike = Math.max(1, (ALIKE_HEIGHTS * letterHeightMetres + ALIKE_SIGMAS * sigmaMetres) / stepMetres);
        const weight = ((1 - off * off) ** 2 * Math.min(1, found.strength / 8)) / (alike * variance);
        const row = STEPS.map((step, unknown) => {
          const [x, y] = [moved[unknown]![2 * index]!, moved[unknown]![2 * index + 1]!];
          return Number.isNaN(x) ? 0 : ((x - at.x) * -at.alongY + (y - at.y) * at.alongX) / step;
        });
        addRow(equations, row, found.offset, weight);
      });
      const inverse = inverseOf(equations.matrix, count);
      if (inverse === null) break;
      covariance = inverse;
      const step = times(inverse, equations.right);
      vector = vector.map((value, index) => value + step[index]!);
      if (level > 0 && step.every((value, index) => Math.abs(value) < 0.02 * Math.sqrt(inverse[index * count + index]!))) break;
    }
  }
  const pose = poseOf(vector);
  shown = samplesShown(samples, pose, map.widthPixels, map.heightPixels);
  const reachPixels = Math.max(2, 0.06 * heightPixels);
  offsets = shown.map((at) => (at === null ? null : lineBeside(map, at, reachPixels)));
  const inside = shown.filter((at) => at !== null && inPicture(at, map)).length;
  const found = offsets.flatMap((each) => (each === null ? [] : [each.offset]));
  const sigma = poseOf(mean.map((_, index) => Math.sqrt(covariance[index * count + index]!)));
  return {
    pose,
    sigma,
    covariance,
    untold: UNKNOWNS.filter((name) => sigma[name] > TOLD_SHARE * prior.sigma[name]),
    offsetsPixels: offsets.map((each) => each?.offset ?? null),
    shown,
    residualHeights: found.length === 0 ? Infinity : Math.sqrt(found.reduce((sum, off) => sum + off * off, 0) / found.length) / heightPixels,
    foundShare: samples.length === 0 ? 0 : found.length / samples.length,
    strangeShare: inside === 0 ? 1 : strangeShare(map, ownSmoke(sigmasMetres, shown, heightPixels), heightPixels),
  };
}

interface Found {
  /** To the left of the stroke's way in the picture. */
  readonly offset: number;
  readonly strength: number;
}

const inPicture = ({ x, y }: SampleShown, { widthPixels, heightPixels }: RidgeMap): boolean => x >= 1 && y >= 1 && x < widthPixels - 1 && y < heightPixels - 1;

/** The strongest line aside of a bit of stroke that runs along it, nearer ones preferred. */
function lineBeside(map: RidgeMap, at: SampleShown, reachPixels: number): Found | null {
  // The normal with x right and y down: to the left of the way as it is seen.
  const [normalX, normalY] = [-at.alongY, at.alongX];
  const wayRadians = Math.atan2(at.alongY, at.alongX);
  const steps = Math.ceil(reachPixels);
  let best = 0;
  let bestOff = 0;
  const scoreAt = (off: number): number => {
    const x = Math.floor(at.x + off * normalX);
    const y = Math.floor(at.y + off * normalY);
    if (x < 1 || y < 1 || x >= map.widthPixels - 1 || y >= map.heightPixels - 1) return 0;
    const index = y * map.widthPixels + x;
    const strength = map.strength[index]!;
    if (strength < LEAST_STRENGTH) return 0;
    if (Math.abs(halfTurn(map.directionRadians[index]! - wayRadians)) > MOST_CROOKED_RADIANS) return 0;
    return strength;
  };
  for (let step = -steps; step <= steps; step++) {
    const score = scoreAt(step) * (1 - 0.5 * (step / (steps + 1)) ** 2);
    if (score > best) [best, bestOff] = [score, step];
  }
  if (best === 0) return null;
  // The centre of the line: the mean of its strength over a few pixels about the strongest.
  let sum = 0;
  let moment = 0;
  for (let off = bestOff - 2; off <= bestOff + 2; off += 0.5) {
    const score = scoreAt(off) ** 2;
    sum += score;
    moment += score * off;
  }
  return { offset: sum > 0 ? moment / sum : bestOff, strength: best };
}

/** An angle between lines without direction, in (-pi / 2, pi / 2]. */
function halfTurn(radians: number): number {
  return radians - Math.PI * Math.round(radians / Math.PI);
}

/** A deviation by the median of the absolute values, which outliers move little. */
function robustSigma(values: readonly number[]): number {
  const sorted = values.map(Math.abs).sort((one, other) => one - other);
  return 1.4826 * (sorted[sorted.length >> 1] ?? 1);
}

/** Where a bit of the word lies, and how far aside of it a line is still its own smoke. */
interface OwnSmoke {
  readonly x: number;
  readonly y: number;
  readonly nearPixels: number;
}

function ownSmoke(sigmasMetres: readonly number[], shown: readonly (SampleShown | null)[], heightPixels: number): OwnSmoke[] {
  return shown.flatMap((at, index) => {
    if (at === null) return [];
    const sigmaPixels = sigmasMetres[index]! * at.pixelsPerMetreAcross;
    return [{ x: at.x, y: at.y, nearPixels: Math.max(OWN_HEIGHTS * heightPixels, OWN_SIGMAS * sigmaPixels) }];
  });
}

/** How much of the strong lines near the word lies off all of its strokes. */
function strangeShare(map: RidgeMap, points: readonly OwnSmoke[], marginPixels: number): number {
  const lowX = Math.max(1, Math.floor(Math.min(...points.map(({ x }) => x)) - marginPixels / 2));
  const highX = Math.min(map.widthPixels - 2, Math.ceil(Math.max(...points.map(({ x }) => x)) + marginPixels / 2));
  const lowY = Math.max(1, Math.floor(Math.min(...points.map(({ y }) => y)) - marginPixels / 2));
  const highY = Math.min(map.heightPixels - 2, Math.ceil(Math.max(...points.map(({ y }) => y)) + marginPixels / 2));
  const width = highX - lowX + 1;
  const height = highY - lowY + 1;
  if (width <= 0 || height <= 0) return 1;
  const near = new Uint8Array(width * height);
  for (const { x, y, nearPixels } of points) {
    const reach = Math.ceil(nearPixels);
    for (let down = -reach; down <= reach; down++) {
      const row = Math.floor(y) + down - lowY;
      if (row < 0 || row >= height) continue;
      const half = Math.floor(Math.sqrt(Math.max(0, nearPixels * nearPixels - down * down)));
      const first = Math.max(0, Math.floor(x) - half - lowX);
      const last = Math.min(width - 1, Math.floor(x) + half - lowX);
      if (last >= first) near.fill(1, row * width + first, row * width + last + 1);
    }
  }
  // As strong as the word's own lines mostly are, so that a thin cloud's edge is not counted with smoke.
  const own = points
    .flatMap(({ x, y }) =>
      x >= 0 && y >= 0 && x < map.widthPixels && y < map.heightPixels ? [map.strength[Math.floor(y) * map.widthPixels + Math.floor(x)]!] : [],
    )
    .sort((one, other) => one - other);
  const strong = Math.max(LEAST_STRENGTH, 0.6 * (own[own.length >> 1] ?? 0));
  let all = 0;
  let strange = 0;
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      if (map.strength[(row + lowY) * map.widthPixels + column + lowX]! < strong) continue;
      all += 1;
      if (near[row * width + column] === 0) strange += 1;
    }
  }
  return all === 0 ? 1 : strange / all;
}
