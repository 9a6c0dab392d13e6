import { accentSketches } from './alphabet-accents.ts';
import { at, type Belt, type BeltSketch, from } from './belt.ts';

/** One small letter of the joined hand, drawn from x = 0 in letter heights. */
export interface ScriptLetter {
  readonly strokes: readonly BeltSketch[];
  /** Dots and accents. */
  readonly marks?: readonly BeltSketch[];
  /** Sky before it when the smoke of the letter before goes on into its first stroke; null where it never does. */
  readonly entersHeights: number | null;
  /** The x of the curve at the foot, the last stroke's last pulley, by which the smoke may go on; null without one. */
  readonly footHeights: number | null;
  /** Where the next letter begins when no smoke goes on to it. */
  readonly advanceHeights: number;
}

/** Depth of what hangs under the baseline. */
const TAIL_HEIGHTS = 0.42;
/** Sky beside letters without a foot. */
const BESIDE_HEIGHTS = 0.24;
/** Sky before a ring that smoke goes on to. */
const RING_HEIGHTS = 0.14;
/** From a foot to the next letter. An upstroke across it, up to the letter, made a reader take n for ru and i for u. */
const AFTER_FOOT_HEIGHTS = 0.18;
/** The stem of a, d goes into their ring by so much: on its rim it is read as a letter of its own, ou for a. */
const STEM_INTO_RING_HEIGHTS = 0.03;
/** s stands so much above the other small letters: two curves of a ship leave it no other way to be one. */
const ABOVE_SMALL_HEIGHTS = 0.18;
/** The next letter stands under the head of an s, which stands over the letter before it. */
const UNDER_HEAD_HEIGHTS = 0.12;
const OVER_BEFORE_HEIGHTS = 0.08;

/** The height of a, c, e: two curves and a little more. */
const smallHeights = (radius: number): number => Math.max(0.64, 2 * radius + 0.12);

/**
 * The small letters a to z as a running hand that a ship can fly, our own drawings: no point is turned back on, so
 * stems begin at their top and rings are laid once round from the baseline.
 *
 * @param radius of every curve, in letter heights: the ship's turn, at least 0.25 and at most a third
 */
function scriptLetters(radius: number): Readonly<Record<string, ScriptLetter>> {
  const r = radius;
  const width = 2 * r;
  const small = smallHeights(r);
  const high = small - r;
  const whole = (widthHeights: number, ...strokes: readonly BeltSketch[]): ScriptLetter => ({
    strokes,
    entersHeights: null,
    footHeights: null,
    advanceHeights: widthHeights + BESIDE_HEIGHTS,
  });
  /** The last stroke goes on from the curve at the foot. */
  const footed = (footHeights: number, last: Belt, strokes: readonly BeltSketch[] = []): ScriptLetter => ({
    strokes: [...strokes, last.left(footHeights, r, r).until(footHeights, -1)],
    entersHeights: null,
    footHeights,
    advanceHeights: footHeights + AFTER_FOOT_HEIGHTS,
  });
  const ring = at(r, -1).left(r, r, r).left(r, high, r).left(r, r, r).until(width, r);
  const stemmed = (topHeights: number): ScriptLetter => {
    const x = width - STEM_INTO_RING_HEIGHTS;
    return { ...footed(x + r, from(x, topHeights), [ring]), entersHeights: RING_HEIGHTS };
  };
  const hook = (x: number): BeltSketch =>
    from(x, small)
      .right(x - r, r - TAIL_HEIGHTS, r)
      .until(x - 1.2 * r, -1);
  const stem = (top: number, bottom = 0): BeltSketch => from(0, top).to(0, bottom);
  const dot = (x: number): BeltSketch => from(x, small + 0.3).to(x, small + 0.2);
  const cup = (x: number): BeltSketch =>
    from(x, small)
      .left(x + r, r, r)
      .to(x + width, small);
  const arch = from(0, 0).right(r, high, r);
  const eye = small / 2 + 0.04;
  // The curves of an s touch, its head as high over its foot as it may stand, the rest aside; both end 20 degrees from level.
  const headY = small + ABOVE_SMALL_HEIGHTS - r;
  const footX = r - OVER_BEFORE_HEIGHTS;
  const headX = footX + Math.sqrt(width ** 2 - (headY - r) ** 2);
  return {
    a: stemmed(small),
    b: whole(width, stem(1), at(0, r).left(r, r, r).left(r, high, r).until(0, high)),
    c: footed(
      width,
      at(width, high + 0.75 * r)
        .left(r, high, r)
        .left(r, r, r),
    ),
    d: stemmed(1),
    e: footed(width, at(width, eye).left(r, high, r).left(r, r, r), [from(0.02, eye - 0.06).to(width - 0.01, eye)]),
    f: whole(
      0.1 + r,
      at(0.1 + 1.8 * r, 1)
        .left(0.1 + r, 1 - r, r)
        .to(0.1, -0.1),
      from(-0.1, small).to(0.1 + 1.1 * r, small),
    ),
    g: { ...whole(width, ring, hook(width)), entersHeights: RING_HEIGHTS },
    h: footed(width + r, arch, [stem(1)]),
    i: { ...footed(r, from(0, small)), marks: [dot(0)] },
    j: { ...whole(r, hook(r)), marks: [dot(r)] },
    k: footed(width - 0.02, from(0.12, small / 2 - 0.02), [stem(1), from(width - 0.04, small).to(0, small / 2 - 0.12)]),
    l: footed(r, from(0, 1)),
    m: footed(2 * width + r, from(width, 0).right(3 * r, high, r), [stem(small), arch.to(width, 0)]),
    n: footed(width + r, arch, [stem(small)]),
    // With an upstroke beside it a ring is an a: no smoke goes on from here.
    o: { ...whole(width, at(r, -1).left(r, r, r).left(r, high, r).left(r, r, r).until(r, -1)), entersHeights: RING_HEIGHTS },
    p: whole(width, stem(small, -TAIL_HEIGHTS), at(0, high).right(r, high, r).right(r, r, r).until(0, r)),
    q: {
      ...whole(
        width + 0.2,
        ring,
        from(width, small)
          .left(width + r, r - TAIL_HEIGHTS, r)
          .until(width + 2 * r, -TAIL_HEIGHTS - 0.1),
      ),
      entersHeights: RING_HEIGHTS,
    },
    r: whole(1.7 * r, stem(small), arch.until(1.8 * r, small)),
    s: whole(
      headX + r - UNDER_HEAD_HEIGHTS,
      at(headX + 1, headY + 0.36)
        .left(headX, headY, r)
        .right(footX, r - 1e-6, r)
        .until(footX - 1, r - 0.36),
    ),
    t: footed(r, from(0, 0.94), [from(-0.2, small).to(0.3, small)]),
    u: footed(width + r, from(width, small), [cup(0)]),
    v: whole(0.5, from(0, small).to(0.25, 0), from(0.25, 0).to(0.5, small)),
    w: whole(2 * width, cup(0), cup(width)),
    x: footed(0.52, from(0, small), [from(0.5, small).to(0, 0)]),
    y: whole(width, cup(0), hook(width)),
    z: whole(0.5, from(0, small).to(0.5, small), from(0.5, small).to(0, 0), from(0, 0).to(0.5, 0)),
  };
}

/**
 * The joined hand's letters for a radius in letter heights: a to z, and those with accents; null for all others, which
 * are drawn as capitals.
 */
export function scriptAlphabet(radius: number): (character: string) => ScriptLetter | null {
  const letters = scriptLetters(radius);
  return (character) => {
    const [plain = '', ...accents] = character.normalize('NFD');
    const letter = Object.hasOwn(letters, plain) ? letters[plain]! : null;
    if (letter === null || accents.length === 0) return letter;
    const marks = accents.map((accent) => accentSketches(accent, (letter.footHeights ?? radius) / 2, smallHeights(radius) - 1));
    return marks.every((mark) => mark !== null) ? { ...letter, marks: marks.flat() } : null;
  };
}
