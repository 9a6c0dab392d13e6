import { createCanvas } from '@napi-rs/canvas';
import type { GreyPicture } from '../../src/core/photograph/grey-picture.ts';
import type { PicturePose } from '../../src/core/photograph/picture-pose.ts';
import { rectifiedWord } from '../../src/core/photograph/rectify.ts';
import type { WordSample } from '../../src/core/photograph/word-samples.ts';
import type { Plan } from '../../src/core/plan/plan.ts';

const PIXELS_PER_HEIGHT = 60;

/** The word of a photograph from straight below, dark on light as the reader likes it. */
export function rectifiedPng(
  picture: GreyPicture,
  pose: PicturePose,
  samples: readonly WordSample[],
  { frame, letterHeightMetres }: Pick<Plan, 'frame' | 'letterHeightMetres'>,
): Buffer {
  const { widthPixels, heightPixels, values } = rectifiedWord(picture, pose, samples, frame, letterHeightMetres, PIXELS_PER_HEIGHT);
  const canvas = createCanvas(widthPixels, heightPixels);
  const context = canvas.getContext('2d');
  const image = context.createImageData(widthPixels, heightPixels);
  values.forEach((value, index) => {
    const grey = 255 - 255 * Math.min(1, 1.3 * value);
    image.data.set([grey, grey, grey, 255], 4 * index);
  });
  context.putImageData(image, 0, 0);
  return canvas.toBuffer('image/png');
}
