import { type GreyPicture, redLight } from '../../src/core/photograph/grey-picture.ts';
import { layWord, type WordLaid } from '../../src/core/photograph/lay-word.ts';
import type { PosePrior } from '../../src/core/photograph/picture-pose.ts';
import { priorFor } from '../../src/core/photograph/pose-prior.ts';
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
/** The diagonal of 36 by 24 mm, by which telephones tell their focal length (CIPA DC-008, Exif). */
const FILM_MILLIMETRES = 43.27;

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
  const focal35Millimetres = (truth.saidFocalPixels * scale * FILM_MILLIMETRES) / Math.hypot(picture.widthPixels, picture.heightPixels);
  const prior = priorFor(samples, { focal35Millimetres, pointed: null }, picture);
  const laid = layWord(picture, samples, prior, handles, plan.letterHeightMetres);
  return { laid, samples, prior, scale, picture, errorHeights: errorOf(laid, samples, truth, scale) };
}

function errorOf(
  laid: WordLaid,
  samples: readonly WordSample[],
  { order, driftEastMetres, driftNorthMetres, stretchEast, stretchNorth, planned }: PhotographedWord,
  scale: number,
): number {
  if (laid.aligned === null) return Infinity;
  let sum = 0;
  let count = 0;
  laid.aligned.shown.forEach((at, index) => {
    const { at: point, olderSeconds } = samples[index]!;
    if (at === null) return;
    const truly = trulySeen(
      order,
      point.eastMetres + driftEastMetres + stretchEast * olderSeconds,
      point.northMetres + driftNorthMetres + stretchNorth * olderSeconds,
    );
    const off = -(truly.x * scale - at.x) * at.alongY + (truly.y * scale - at.y) * at.alongX;
    sum += (off / (planned.plan.letterHeightMetres * Math.sqrt(at.pixelsPerMetreAcross * at.pixelsPerMetreAlong))) ** 2;
    count += 1;
  });
  return count === 0 ? Infinity : Math.sqrt(sum / count);
}
