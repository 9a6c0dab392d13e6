import { at, from, loop } from './belt.ts';
import { grown } from './grown-curves.ts';
import type { DrawingTable } from './character-drawing.ts';

/** The digits, our own drawings; see alphabet-capitals.ts. They are narrower than capitals, so
 * that 0 is no O. Dropped: a 5 in two strokes (S), a round 7 (1). */
export const DIGITS: DrawingTable = {
  0: {
    widthHeights: 0.56,
    styles: {
      crisp: (r) => [
        loop()
          .left(0.28, 1 - grown(r, 0.28), grown(r, 0.28))
          .left(0.28, grown(r, 0.28), grown(r, 0.28))
          .close(),
      ],
    },
  },
  1: {
    widthHeights: 0.56,
    // Without its foot, readers see 11 as M.
    styles: {
      crisp: () => [from(0, 0.8).to(0.3, 1), from(0.3, 1).to(0.3, 0), from(0.04, 0).to(0.56, 0)],
      rounded: (r) => [
        at(-0.1, 0.9)
          .right(0.28 - r, 1 - r, r)
          .to(0.28, 0),
        from(0.02, 0).to(0.54, 0),
      ],
    },
  },
  2: {
    widthHeights: 0.6,
    styles: {
      crisp: (r) => [
        at(0, 0.8)
          .right(0.29, 1 - grown(r, 0.29), grown(r, 0.29))
          .to(0, 0),
        from(0, 0).to(0.6, 0),
      ],
    },
  },
  3: {
    widthHeights: 0.54,
    small: ['small'],
    styles: {
      crisp: () => [at(0, 0.9).right(0.27, 0.75, 0.25).to(0.18, 0.5), from(0.18, 0.5).right(0.29, 0.25, 0.25).until(0, 0.1)],
      // For small letters: a level top and a slant into one wide bowl.
      small: (r) => [
        from(0, 1).to(0.56, 1),
        from(0.56, 1).to(0.2, 2 * r),
        from(0.2, 2 * r)
          .right(0.28, r, r)
          .until(0, 0.1),
      ],
    },
  },
  4: {
    widthHeights: 0.66,
    styles: {
      crisp: () => [from(0.46, 1).to(0, 0.3), from(0, 0.3).to(0.66, 0.3), from(0.46, 1).to(0.46, 0)],
      open: (r) => [
        from(0.1, 1)
          .left(r, 0.3 + r, r)
          .to(0.66, 0.3),
        from(0.46, 0.76).to(0.46, 0),
      ],
    },
  },
  5: {
    widthHeights: 0.58,
    styles: {
      crisp: (r) => [from(0.06, 1).to(0.54, 1), from(0.06, 1).to(0.04, 0.5), at(0.04, 0.5).right(0.28, grown(r, 0.3), grown(r, 0.3)).until(0, 0.1)],
    },
  },
  6: {
    widthHeights: 0.58,
    styles: { crisp: (r) => [at(0.56, 0.95).left(0.42, 0.58, 0.42).left(grown(r, 0.29), grown(r, 0.29), grown(r, 0.29)).until(0, 0.45)] },
  },
  7: {
    widthHeights: 0.6,
    styles: { crisp: () => [from(0, 1).to(0.6, 1), from(0.6, 1).to(0.16, 0)] },
  },
  8: {
    widthHeights: 0.58,
    small: ['small'],
    styles: {
      crisp: () => [loop().right(0.33, 0.25, 0.25).right(0.25, 0.25, 0.25).left(0.33, 0.75, 0.25).left(0.25, 0.75, 0.25).close()],
      // For small letters: two circles that overlap.
      small: (r) => [
        loop()
          .left(r, 1 - r, r)
          .close(),
        loop().left(r, r, r).close(),
      ],
    },
  },
  9: {
    widthHeights: 0.58,
    styles: {
      crisp: (r) => [
        at(0.02, 0.05)
          .left(0.16, 0.42, 0.42)
          .left(0.58 - grown(r, 0.29), 1 - grown(r, 0.29), grown(r, 0.29))
          .until(0.58, 0.55),
      ],
    },
  },
};
