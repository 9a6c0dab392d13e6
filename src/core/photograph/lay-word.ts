import { smokeSigmaMetres } from './smoke-width.ts';
import { alignWord, type WordAligned } from './align-word.ts';
import { type Handle, poseFromHandles } from './first-placing.ts';
import type { GreyPicture } from './grey-picture.ts';
import { middleScale, type PosePrior, samplesShown } from './picture-pose.ts';
import { ridgeMap } from './ridges.ts';
import type { WordSample } from './word-samples.ts';

/** A word laid over a picture, or why it is none of this word. */
export type WordLaid =
  | { readonly ok: true; readonly aligned: WordAligned }
  | { readonly ok: false; readonly reason: string; readonly aligned: WordAligned | null };

/** A word is taken for seen from this share of its strokes on... */
const LEAST_FOUND = 0.78;
/** ...with at most so much other smoke among its letters... */
const MOST_STRANGE = 0.25;
/** ...and its strokes at most so far off, in letter heights. */
const MOST_RESIDUAL = 0.03;
/** A hand places a corner of the word to about this, in letter heights. */
const HANDLE_HEIGHTS = 0.1;
/** Tries from a little aside of the first placing, in letter heights, for one that falls into place better. */
const TRIES: readonly (readonly [number, number])[] = [
  [0, 0],
  [0.14, 0],
  [-0.14, 0],
  [0, 0.14],
  [0, -0.14],
];

/**
 * Finds the smoke of a word in a picture and lays the word over it, from where its corners were first placed. A word that
 * is not in the picture is refused, with how little of it was found.
 *
 * @param picture red light, as `redLight` gives it
 * @param handles points of the word where somebody, or the device's own bearing and tilt, sees them
 */
export function layWord(
  picture: GreyPicture,
  samples: readonly WordSample[],
  prior: PosePrior,
  handles: readonly Handle[],
  letterHeightMetres: number,
): WordLaid {
  if (samples.length === 0) return { ok: false, reason: 'Nothing of the word was written when this picture was taken.', aligned: null };
  const { widthPixels, heightPixels } = picture;
  const handleSigmaPixels = Math.max(3, HANDLE_HEIGHTS * roughHeightPixels(handles, widthPixels));
  const placed = poseFromHandles(handles, prior, widthPixels, heightPixels, handleSigmaPixels);
  const shown = samplesShown(samples, placed, widthPixels, heightPixels);
  const widths = shown
    .flatMap((at, index) => (at === null ? [] : [smokeSigmaMetres(samples[index]!.ageSeconds) * at.pixelsPerMetreAcross]))
    .sort((one, other) => one - other);
  if (widths.length < samples.length / 2)
    return { ok: false, reason: 'Most of the word would lie outside of this picture. Place its corners again.', aligned: null };
  const narrow = Math.max(1.2, widths[Math.floor(widths.length * 0.05)]!);
  const wide = Math.min(widthPixels / 20, Math.max(1.5 * narrow, widths[Math.floor(widths.length * 0.95)]!));
  const scales = Array.from({ length: 4 }, (_, index) => narrow * (wide / narrow) ** (index / 3));
  const map = ridgeMap(picture, scales);
  let best: WordAligned | null = null;
  const letterPixels = letterHeightMetres * middleScale(shown);
  for (const [right, down] of TRIES) {
    const moved = handles.map(({ point, seenAt }) => ({ point, seenAt: { x: seenAt.x + right * letterPixels, y: seenAt.y + down * letterPixels } }));
    const from = right === 0 && down === 0 ? placed : poseFromHandles(moved, prior, widthPixels, heightPixels, handleSigmaPixels);
    const aligned = alignWord(samples, map, prior, from, letterHeightMetres);
    if (best === null || scoreOf(aligned) > scoreOf(best)) best = aligned;
    if (scoreOf(best) > 0.9) break;
  }
  if (best === null) throw new RangeError('no placing was tried');
  const percent = Math.round(100 * best.foundShare);
  if (best.foundShare < 0.1) return { ok: false, reason: 'No smoke was found where the word should be.', aligned: best };
  if (best.foundShare < LEAST_FOUND)
    return {
      ok: false,
      reason: `Only ${percent} % of the word lies on smoke; at least ${100 * LEAST_FOUND} % must. It is another word, or its corners are placed wrongly.`,
      aligned: best,
    };
  if (best.strangeShare > MOST_STRANGE)
    return {
      ok: false,
      reason: `${Math.round(100 * best.strangeShare)} % of the lines in this part of the picture belong to no stroke of the word.`,
      aligned: best,
    };
  if (best.residualHeights > MOST_RESIDUAL)
    return {
      ok: false,
      reason: `The smoke lies ${best.residualHeights.toFixed(3)} letter heights off the word; at most ${MOST_RESIDUAL} is taken.`,
      aligned: best,
    };
  return { ok: true, aligned: best };
}

function scoreOf({ foundShare, strangeShare, residualHeights }: WordAligned): number {
  return foundShare - 0.5 * strangeShare - 2 * Math.min(0.2, residualHeights);
}

function roughHeightPixels(handles: readonly Handle[], widthPixels: number): number {
  const ys = handles.map(({ seenAt }) => seenAt.y);
  return handles.length === 0 ? widthPixels / 8 : Math.max(1, Math.max(...ys) - Math.min(...ys)) / 1.5;
}
