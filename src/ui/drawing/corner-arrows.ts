import type { PicturePoint } from './picture-view.ts';

/** A corner of a picture that an arrow and the word under it take up, from its lower left corner. */
export interface CornerBox {
  readonly lowXPixels: number;
  readonly highXPixels: number;
  readonly lowUpPixels: number;
}

/** From the picture's top to below the arrow's word. */
const DEPTH_PIXELS = 62;
/** Room a stroke's number needs beside what it names. */
const BESIDE_PIXELS = 22;
/** Of a word in the arrows' type of 13 pixels, a generous mean. */
const CHARACTER_PIXELS = 8.2;

/** Where a corner arrow's middle stands so that its word does not leave the picture. */
export function arrowInset(text: string): number {
  return Math.max(24, (text.length * CHARACTER_PIXELS) / 2 + 4);
}

/** The upper corners taken by a wind's arrow at the left, if there is one, and by north's at the right. */
export function cornerBoxes(size: { readonly widthPixels: number; readonly heightPixels: number }, windText: string | null): CornerBox[] {
  const lowUpPixels = size.heightPixels - DEPTH_PIXELS;
  const north = { lowXPixels: size.widthPixels - 2 * arrowInset('N'), highXPixels: size.widthPixels, lowUpPixels };
  return windText === null ? [north] : [{ lowXPixels: 0, highXPixels: 2 * arrowInset(windText), lowUpPixels }, north];
}

/** Whether a drawing, or a number beside it, comes into one of the corners. */
export function reachesCorner(drawing: readonly PicturePoint[], boxes: readonly CornerBox[]): boolean {
  return drawing.some(({ xPixels, upPixels }) =>
    boxes.some(
      ({ lowXPixels, highXPixels, lowUpPixels }) =>
        xPixels > lowXPixels - BESIDE_PIXELS && xPixels < highXPixels + BESIDE_PIXELS && upPixels > lowUpPixels - BESIDE_PIXELS,
    ),
  );
}
