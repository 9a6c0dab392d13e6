import { at, from, loop } from './belt.ts';
import { bowlsAside, grown } from './grown-curves.ts';
import type { DrawingTable } from './character-drawing.ts';

/**
 * The capitals, our own drawings, in letter heights with the pen of belt.ts. Round letters turn at 0.4; two bowls
 * stacked leave 0.25 each, which sets the smallest letter a ship can write. The crowd sees the sky foreshortened,
 * so letters are a little narrower than on paper.
 *
 * `crisp` ends a stroke at every corner and lists the strokes as a draughtsman letters them: uprights and slants
 * downwards, level strokes to the right; uprights before level strokes, the outer strokes of N and M before the inner
 * ones, the bar of T before its stem (US Navy training manuals, Illustrator Draftsman, "Letter strokes", and
 * Engineering Aid, "Straight-line capitals"); the foot of E before its top, as E begins like L (common practice, no
 * source). What a hand writes in one curve is one stroke.
 *
 * The other styles save strokes or place their ends otherwise, turning through corners with the radius r; a corner
 * is rounded where another line of the letter covers what that takes away. `round` names those that a crowd takes for
 * the letter at once, the hand of round capitals: its N, M and W are wider, so that their slants are seen.
 * Tried and dropped, because readers saw other letters: N and M in one stroke through both corners (RI, BI; IA), W in
 * one (UJ, B), an M whose valley is round (NM), an N with its lower corner round (NJ), a V with a round point (U), a Z
 * with a round foot (C) or a round top (2), a Y with a cup (V), an H of two bends or with an arch (R), an E in one
 * stroke like the small one (O), an R that turns round at its waist (E).
 */
export const CAPITALS: DrawingTable = {
  A: {
    widthHeights: 0.84,
    round: ['rounded', 'level', 'low'],
    styles: {
      crisp: () => [from(0.42, 1).to(0, 0), from(0.42, 1).to(0.84, 0), from(0.14, 0.34).to(0.7, 0.34)],
      rounded: (r) => [
        from(0, 0)
          .right(0.42, 1 - r, r)
          .to(0.84, 0),
        from(0.1, 0.36).to(0.74, 0.36),
      ],
      // The bar as high as those of B, E, F and H, to be flown in one line with them; and nearer to the feet.
      level: (r) => [
        from(0, 0)
          .right(0.42, 1 - r, r)
          .to(0.84, 0),
        from(0.13, 0.5).to(0.71, 0.5),
      ],
      low: (r) => [
        from(0, 0)
          .right(0.42, 1 - r, r)
          .to(0.84, 0),
        from(0.08, 0.28).to(0.76, 0.28),
      ],
    },
  },
  Æ: {
    widthHeights: 1.1,
    round: ['rounded'],
    styles: {
      crisp: () => [from(0.54, 1).to(0, 0), from(0.54, 1).to(0.54, 0), from(0.54, 1).to(1.1, 1), from(0.22, 0.42).to(1.02, 0.42), from(0.54, 0).to(1.1, 0)],
      rounded: (r) => [
        from(0, 0)
          .right(0.36 + r, 1 - r, r)
          .to(1.1, 1),
        from(0.54, 1)
          .left(0.54 + r, r, r)
          .to(1.1, 0),
        from(0.22, 0.42).to(1.02, 0.42),
      ],
    },
  },
  B: {
    widthHeights: 0.6,
    round: ['crisp', 'rounded'],
    small: ['small'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0, 1).right(0.32, 0.75, 0.25).to(0, 0.5), from(0, 0.5).right(0.35, 0.25, 0.25).to(0, 0)],
      rounded: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .right(0.32, 0.75, 0.25)
          .to(0, 0.5),
        from(0, 0.5).right(0.35, 0.25, 0.25).to(0, 0),
      ],
      // One stroke: from the waist into the foot of the lower bowl, which it then closes.
      woven: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .right(0.3, 0.75, 0.25)
          .left(0.25, 0.25, 0.25)
          .left(0.35, 0.25, 0.25)
          .to(0, 0.5),
      ],
      // For small letters: bowls that overlap.
      small: (r) => [
        from(0, 1).to(0, 0),
        from(0, 1)
          .right(0.3, 1 - r, r)
          .to(0, 1 - 2 * r),
        from(0, 2 * r)
          .right(0.34, r, r)
          .to(0, 0),
      ],
      hung: (r) => [from(0, 1).left(r, r, r).left(0.35, 0.25, 0.25).right(0.25, 0.75, 0.25).right(0.3, 0.75, 0.25).to(0, 0.5)],
    },
  },
  C: {
    widthHeights: 0.76,
    styles: { crisp: () => [at(0.8, 0.8).left(0.4, 0.6, 0.4).left(0.4, 0.4, 0.4).until(0.8, 0.2)] },
  },
  D: {
    widthHeights: 0.74,
    round: ['crisp', 'rounded'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0, 1).right(0.34, 0.6, 0.4).right(0.34, 0.4, 0.4).to(0, 0)],
      rounded: (r) => [
        from(0, 0)
          .left(0.25, 0.49, 0.49)
          .left(0.25, 0.51, 0.49)
          .left(r, 1 - r, r)
          .to(0, 0),
      ],
      hung: (r) => [from(0, 1).right(0.25, 0.51, 0.49).right(0.25, 0.49, 0.49).right(r, r, r).to(0, 1)],
    },
  },
  E: {
    widthHeights: 0.6,
    round: ['foot', 'rounded'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0, 0).to(0.6, 0), from(0, 1).to(0.6, 1), from(0, 0.5).to(0.52, 0.5)],
      foot: (r) => [from(0, 1).left(r, r, r).to(0.6, 0), from(0, 1).to(0.6, 1), from(0, 0.5).to(0.52, 0.5)],
      rounded: (r) => [
        from(0.6, 1)
          .left(r, 1 - r, r)
          .left(r, r, r)
          .to(0.6, 0),
        from(0, 0.5).to(0.52, 0.5),
      ],
    },
  },
  F: {
    widthHeights: 0.58,
    round: ['rounded'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0, 1).to(0.58, 1), from(0, 0.5).to(0.5, 0.5)],
      rounded: (r) => [
        from(0.58, 1)
          .left(r, 1 - r, r)
          .to(0, 0),
        from(0, 0.5).to(0.5, 0.5),
      ],
    },
  },
  G: {
    widthHeights: 0.8,
    round: ['crisp', 'rounded'],
    styles: {
      crisp: () => [at(0.8, 0.8).left(0.4, 0.6, 0.4).left(0.4, 0.4, 0.4).to(0.8, 0.44), from(0.44, 0.44).to(0.8, 0.44)],
      rounded: (r) => [
        at(0.8, 0.8)
          .left(0.4, 0.6, 0.4)
          .left(0.4, 0.4, 0.4)
          .left(0.8 - r, 0.5 - r, r)
          .to(0.4, 0.5),
      ],
    },
  },
  H: {
    widthHeights: 0.7,
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0.7, 1).to(0.7, 0), from(0, 0.5).to(0.7, 0.5)],
    },
  },
  I: { widthHeights: 0, styles: { crisp: () => [from(0, 1).to(0, 0)] } },
  J: {
    widthHeights: 0.54,
    styles: {
      crisp: (r) => [
        from(0.54, 1)
          .right(0.54 - grown(r, 0.27), grown(r, 0.27), grown(r, 0.27))
          .until(0.54 - 2 * grown(r, 0.27), 0.22),
      ],
    },
  },
  K: {
    widthHeights: 0.66,
    round: ['crisp', 'rounded', 'bows'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0.62, 1).to(0, 0.44), from(0.19, 0.61).to(0.66, 0)],
      rounded: (r) => [from(0, 1).to(0, 0), from(0.62, 1).left(r, 0.5, r).to(0.66, 0)],
      // Stem to leg and stem to arm, crossing at the waist.
      bows: (r) => [from(0, 1).left(r, 0.6, r).to(0.66, 0), from(0, 0).right(r, 0.4, r).to(0.62, 1)],
    },
  },
  L: {
    widthHeights: 0.56,
    round: ['rounded'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0, 0).to(0.56, 0)],
      rounded: (r) => [from(0, 1).left(r, r, r).to(0.56, 0)],
    },
  },
  M: {
    widthHeights: 1.2,
    round: ['splayed'],
    quickest: ['crisp', 'shoulders'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(1.2, 1).to(1.2, 0), from(0, 1).to(0.6, 0.2), from(1.2, 1).to(0.6, 0.2)],
      splayed: (r) => [
        from(0, 0)
          .right(0.06 + r, 1 - r, r)
          .to(0.66, 0.12),
        from(0.66, 0.12)
          .right(1.26 - r, 1 - r, r)
          .to(1.32, 0),
      ],
      shoulders: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .to(0.6, 0.5),
        from(0.6, 0.5)
          .right(1.2 - r, 1 - r, r)
          .to(1.2, 0),
      ],
    },
  },
  N: {
    widthHeights: 0.76,
    round: ['open'],
    quickest: ['crisp', 'shoulder', 'arch'],
    styles: {
      crisp: () => [from(0, 1).to(0, 0), from(0.76, 1).to(0.76, 0), from(0, 1).to(0.76, 0)],
      // One corner rounded; wide enough that its slant is seen.
      open: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .to(0.9, 0),
        from(0.9, 0).to(0.9, 1),
      ],
      shoulder: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .to(0.76, 0),
        from(0.76, 0).to(0.76, 1),
      ],
      arch: (r) => [
        from(0, 0)
          .right(Math.max(r, 0.38), 1 - Math.max(r, 0.38), Math.max(r, 0.38))
          .to(0.76, 0),
      ],
    },
  },
  O: { widthHeights: 0.8, styles: { crisp: () => [loop().left(0.4, 0.6, 0.4).left(0.4, 0.4, 0.4).close()] } },
  Œ: {
    widthHeights: 1.26,
    styles: { crisp: () => [from(1.26, 1).left(0.4, 0.6, 0.4).left(0.4, 0.4, 0.4).to(1.26, 0), from(0.72, 1).to(0.72, 0), from(0.72, 0.5).to(1.18, 0.5)] },
  },
  P: {
    widthHeights: 0.6,
    round: ['rounded'],
    styles: {
      crisp: (r) => [
        from(0, 1).to(0, 0),
        from(0, 1)
          .right(0.32, 1 - grown(r, 0.28), grown(r, 0.28))
          .to(0, 1 - 2 * grown(r, 0.28)),
      ],
      rounded: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .right(0.32, 1 - grown(r, 0.28), grown(r, 0.28))
          .to(0, 1 - 2 * grown(r, 0.28)),
      ],
      level: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .right(0.34, 1 - r, r)
          .to(0, 1 - 2 * r),
      ],
    },
  },
  Q: {
    widthHeights: 0.8,
    styles: {
      crisp: () => [loop().left(0.4, 0.6, 0.4).left(0.4, 0.4, 0.4).close(), from(0.48, 0.3).to(0.84, -0.06)],
      swash: () => [from(0.4, 0).left(0.4, 0.4, 0.4).left(0.4, 0.6, 0.4).left(0.4, 0.4, 0.4).to(0.94, 0)],
    },
  },
  R: {
    widthHeights: 0.62,
    round: ['rounded'],
    styles: {
      crisp: (r) => [
        from(0, 1).to(0, 0),
        from(0, 1)
          .right(0.32, 1 - grown(r, 0.28), grown(r, 0.28))
          .to(0, 1 - 2 * grown(r, 0.28)),
        from(0.26, 1 - 2 * grown(r, 0.28)).to(0.62, 0),
      ],
      rounded: (r) => [
        from(0, 0)
          .right(r, 1 - r, r)
          .right(0.32, 1 - grown(r, 0.28), grown(r, 0.28))
          .to(0, 1 - 2 * grown(r, 0.28)),
        from(0.26, 1 - 2 * grown(r, 0.28)).to(0.62, 0),
      ],
      // One stroke: foot, waist, bowl, down the stem, leg. Waist and leg leave the stem in curves that cross on it.
      knot: (r) => [
        from(0, 0)
          .right(r, 1 - 3 * r, r)
          .left(0.32, 1 - r, r)
          .left(r, 1 - r, r)
          .left(r, 1.1 - 2 * r, r)
          .to(0.62, 0),
      ],
    },
  },
  S: {
    widthHeights: 0.58,
    small: ['slanted'],
    styles: {
      crisp: () => [at(0.58, 0.88).left(0.32, 0.75, 0.25).left(0.25, 0.75, 0.25).right(0.33, 0.25, 0.25).right(0.26, 0.25, 0.25).until(0, 0.12)],
      // For small letters: the bowls stand aside of each other instead of one on the other.
      slanted: (r) => {
        const asideHeights = bowlsAside(r);
        return [
          at(2 * r + asideHeights + 0.04, 0.84)
            .left(r + asideHeights, 1 - r, r)
            .right(r, r, r)
            .until(-0.04, 0.16),
        ];
      },
    },
  },
  T: { widthHeights: 0.7, styles: { crisp: () => [from(0, 1).to(0.7, 1), from(0.35, 1).to(0.35, 0)] } },
  Þ: {
    widthHeights: 0.6,
    styles: {
      crisp: (r) => [
        from(0, 1).to(0, 0),
        from(0, 0.5 + grown(r, 0.28))
          .right(0.32, 0.5, grown(r, 0.28))
          .to(0, 0.5 - grown(r, 0.28)),
      ],
    },
  },
  U: {
    widthHeights: 0.7,
    styles: {
      crisp: () => [from(0, 1).left(0.35, 0.35, 0.35).to(0.7, 1)],
      // Half a stem apart, for two ships to share the letter.
      left: () => [from(0, 1).to(0, 0.5), from(0, 0.5).left(0.35, 0.35, 0.35).to(0.7, 1)],
      right: () => [from(0, 1).left(0.35, 0.35, 0.35).to(0.7, 0.5), from(0.7, 1).to(0.7, 0.5)],
    },
  },
  V: { widthHeights: 0.8, styles: { crisp: () => [from(0, 1).to(0.4, 0), from(0.8, 1).to(0.4, 0)] } },
  W: {
    widthHeights: 1.1,
    round: ['bowls'],
    quickest: ['crisp', 'feet'],
    styles: {
      crisp: () => [from(0, 1).to(0.28, 0), from(0.55, 0.86).to(0.28, 0), from(0.55, 0.86).to(0.82, 0), from(1.1, 1).to(0.82, 0)],
      bowls: (r) => [
        from(0, 1)
          .left(0.1 + r, r, r)
          .to(0.58, 0.8),
        from(0.58, 0.8)
          .left(1.06 - r, r, r)
          .to(1.16, 1),
      ],
      feet: (r) => [from(0, 1).left(0.31, r, r).to(0.55, 0.65), from(0.55, 0.65).left(0.79, r, r).to(1.1, 1)],
    },
  },
  X: {
    widthHeights: 0.74,
    styles: {
      crisp: () => [from(0, 1).to(0.74, 0), from(0.74, 1).to(0, 0)],
      bows: (r) => [
        from(0, 1)
          .right(0.37 - r, 0.5, r)
          .to(0, 0),
        from(0.74, 1)
          .left(0.37 + r, 0.5, r)
          .to(0.74, 0),
      ],
    },
  },
  Y: {
    widthHeights: 0.76,
    round: ['right', 'left'],
    styles: {
      crisp: () => [from(0, 1).to(0.38, 0.46), from(0.76, 1).to(0.38, 0.46), from(0.38, 0.46).to(0.38, 0)],
      right: (r) => [
        from(0, 1).to(0.38, 0.46),
        from(0.76, 1)
          .left(0.38 + r, 0.34, r)
          .to(0.38, 0),
      ],
      left: (r) => [
        from(0.76, 1).to(0.38, 0.46),
        from(0, 1)
          .right(0.38 - r, 0.34, r)
          .to(0.38, 0),
      ],
    },
  },
  Z: {
    widthHeights: 0.7,
    styles: {
      crisp: () => [from(0, 1).to(0.68, 1), from(0, 0).to(0.7, 0), from(0.68, 1).to(0, 0)],
    },
  },
};
