import { type GreyPicture, redLight } from '../../src/core/photograph/grey-picture.ts';
import { layWord, type WordLaid } from '../../src/core/photograph/lay-word.ts';
import type { PosePrior } from '../../src/core/photograph/picture-pose.ts';
import { wordCorners } from '../../src/core/photograph/word-corners.ts';
import { type WordSample, wordSamples } from '../../src/core/photograph/word-samples.ts';
import { uniformFrom } from '../flight/random.ts';
import type { PhotographedWord } from './photographed-word.ts';
import { type Photograph, trulySeen } from './render-photograph.ts';

/** A word laid over its picture by the app, beside the truth. */
export interface LaidPhotograph {
  readonly laid: WordLaid;
  readonly samples: readonly WordSample[];
  readonly prior: PosePrior;
  readonly scale: number;
  readonly picture: GreyPicture;
  /** Root mean square of how far strokes lie aside of where they truly are, over letter heights. */
  readonly errorHeights: number;
}

const PHOTO_PIXELS = 1400;

/** Lays `word` over a picture that was truly taken of `truth`, its corners placed wrong by up to a share of its height. */
export function layPhotograph(truth: PhotographedWord, photograph: Photograph, word: PhotographedWord, placingShare: number, seed: number): LaidPhotograph {
  const { order, atSeconds } = truth;
  const picture = redLight(photograph.rgba, photograph.widthPixels, photograph.heightPixels, PHOTO_PIXELS);
  const scale = 1 / picture.shrunk;
  const { plan, air } = word.planned;
  const moment = { atSeconds, eye: { eastMetres: 0, northMetres: 0, upMetres: 0 }, wind: air.wind, layerAboveSiteMetres: air.layerAboveSiteMetres };
  const samples = wordSamples(word.trails, moment, plan.letterHeightMetres / 30);
  const uniform = uniformFrom(seed);
  const corners = wordCorners(samples, plan.frame);
  const seen = corners.map(({ eastMetres, northMetres }) => {
    const at = trulySeen(order, eastMetres + truth.driftEastMetres, northMetres + truth.driftNorthMetres);
    return { x: at.x * scale, y: at.y * scale };
  });
  const heightPixels = Math.hypot(seen[0]!.x - seen[3]!.x, seen[0]!.y - seen[3]!.y);
  const handles = corners.map((point, index) => ({
    point,
    seenAt: {
      x: seen[index]!.x + (2 * uniform() - 1) * placingShare * heightPixels,
      y: seen[index]!.y + (2 * uniform() - 1) * placingShare * heightPixels,
    },
  }));
  const middle = samples.reduce((sum, { at }) => ({ east: sum.east + at.eastMetres / samples.length, north: sum.north + at.northMetres / samples.length }), {
    east: 0,
    north: 0,
  });
  const prior: PosePrior = {
    mean: {
      bearing: Math.atan2(middle.east, middle.north),
      tilt: Math.atan2(air.layerAboveSiteMetres, Math.hypot(middle.east, middle.north)),
      roll: 0,
      focal: Math.log(truth.saidFocalPixels * scale),
      distortion: 0,
      driftEast: 0,
      driftNorth: 0,
      height: 0,
    },
    sigma: { bearing: 0.3, tilt: 0.3, roll: 0.15, focal: 0.08, distortion: 0.02, driftEast: 300, driftNorth: 300, height: 0.01 },
  };
  const laid = layWord(picture, samples, prior, handles, plan.letterHeightMetres);
  return { laid, samples, prior, scale, picture, errorHeights: errorOf(laid, samples, truth, scale) };
}

function errorOf(
  laid: WordLaid,
  samples: readonly WordSample[],
  { order, driftEastMetres, driftNorthMetres, planned }: PhotographedWord,
  scale: number,
): number {
  if (laid.aligned === null) return Infinity;
  let sum = 0;
  let count = 0;
  laid.aligned.shown.forEach((at, index) => {
    const { at: point } = samples[index]!;
    if (at === null) return;
    const truly = trulySeen(order, point.eastMetres + driftEastMetres, point.northMetres + driftNorthMetres);
    const off = -(truly.x * scale - at.x) * at.alongY + (truly.y * scale - at.y) * at.alongX;
    sum += (off / (planned.plan.letterHeightMetres * Math.sqrt(at.pixelsPerMetreAcross * at.pixelsPerMetreAlong))) ** 2;
    count += 1;
  });
  return count === 0 ? Infinity : Math.sqrt(sum / count);
}
