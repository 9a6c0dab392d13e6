import { createCanvas } from '@napi-rs/canvas';
import { type PhotographOrder, takePhotograph } from './render-photograph.ts';

/** A picture as the reader likes it, dark smoke on light: what the smoke adds to the same sky without it. */
export async function belowPng(order: PhotographOrder): Promise<Buffer> {
  const { widthPixels, heightPixels } = order;
  const [seen, bare] = [await takePhotograph(order), await takePhotograph({ ...order, smoke: [] })];
  const canvas = createCanvas(widthPixels, heightPixels);
  const context = canvas.getContext('2d');
  const image = context.createImageData(widthPixels, heightPixels);
  const added = Float32Array.from({ length: widthPixels * heightPixels }, (_, index) => Math.max(0, seen.rgba[4 * index]! - bare.rgba[4 * index]!));
  const most = Math.max(1, added.toSorted()[Math.floor(0.98 * added.length)]!);
  added.forEach((value, index) => {
    const grey = 255 - 255 * Math.min(1, (1.3 * value) / most);
    image.data.set([grey, grey, grey, 255], 4 * index);
  });
  context.putImageData(image, 0, 0);
  return canvas.toBuffer('image/png');
}
