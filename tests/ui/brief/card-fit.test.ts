import { describe, expect, it } from 'vitest';
import { type CardFit, firstFit, nextFit, type PageMeasure, SMALLEST_POINTS } from '../../../src/ui/brief/card-fit.ts';
import { fc } from '../../property.ts';

interface LaidOut {
  readonly points: number;
  readonly strokesOnPages: readonly number[];
  readonly layouts: number;
}

/** Lays cards out until they fit; `page` measures one that holds strokes so many to so many, in type of so many points. */
function laidOut(strokes: number, page: (number: number, from: number, to: number, points: number, last: boolean) => PageMeasure): LaidOut {
  let fit: CardFit = firstFit(strokes);
  for (let layouts = 1; layouts < 200; layouts += 1) {
    let from = 0;
    const next = nextFit(
      fit,
      fit.strokesOnPages.map((count, number) => page(number, from, (from += count), fit.points, number === fit.strokesOnPages.length - 1)),
    );
    if (next === null) return { points: fit.points, strokesOnPages: fit.strokesOnPages, layouts };
    fit = next;
  }
  throw new Error('never settled');
}

/** Paper where a stroke of 10 points takes a tenth of a page. */
const tenths =
  (room: (number: number) => number) =>
  (number: number, from: number, to: number, points: number): PageMeasure => {
    const row = points / 100 / room(number);
    return { height: (to - from) * row, rows: Array.from({ length: to - from }, () => row) };
  };

describe('the fit of a card', () => {
  it('sets few strokes in the largest type, more in the largest that holds them', () => {
    expect(
      laidOut(
        3,
        tenths(() => 1),
      ),
    ).toEqual({ points: 15, strokesOnPages: [3], layouts: 1 });
    expect(
      laidOut(
        8,
        tenths(() => 1),
      ),
    ).toMatchObject({ points: 12.5, strokesOnPages: [8] });
  });

  it('goes on overleaf rather than under 11 points, each stroke once, the first pages full', () => {
    const long = laidOut(
      30,
      tenths((page) => (page === 0 ? 0.7 : 1.2)),
    );
    expect(long.points).toBe(SMALLEST_POINTS);
    expect(long.strokesOnPages).toEqual([6, 10, 10, 4]);
    expect(long.strokesOnPages.reduce((sum, count) => sum + count, 0)).toBe(30);
    // The type, and two for each page after the one before it.
    expect(long.layouts).toBeLessThanOrEqual(9);
  });

  it('leaves a stroke that fills more than a page by itself', () => {
    expect(
      laidOut(
        2,
        tenths(() => 0.05),
      ).strokesOnPages,
    ).toEqual([1, 1]);
  });

  it('finds what trying every size and moving one stroke after another finds, whatever wraps', () => {
    const card = fc.record({
      head: fc.double({ min: 0.05, max: 0.6, noNaN: true }),
      foot: fc.double({ min: 0, max: 0.3, noNaN: true }),
      // Characters of each stroke's words; a line holds fewer the larger the type is.
      strokes: fc.array(fc.integer({ min: 5, max: 160 }), { minLength: 1, maxLength: 40 }),
    });
    fc.assert(
      fc.property(card, ({ head, foot, strokes }) => {
        const page = (number: number, from: number, to: number, points: number, last: boolean): PageMeasure => {
          const rows = strokes.slice(from, to).map((characters) => (Math.ceil((characters * points) / 600) * points) / 550);
          const others = (number === 0 ? head : 0.1) + (last ? foot : 0);
          return { height: others * (points / 13) + rows.reduce((sum, row) => sum + row, 0), rows };
        };
        const found = laidOut(strokes.length, page);
        const sizes = Array.from({ length: 9 }, (_, index) => 15 - index / 2);
        const whole = sizes.find((points) => page(0, 0, strokes.length, points, true).height <= 1);
        expect(found.points).toBe(whole ?? SMALLEST_POINTS);
        if (whole !== undefined) {
          expect(found.strokesOnPages).toEqual([strokes.length]);
          return;
        }
        // Each page is full: the next stroke would not fit it.
        let from = 0;
        for (const [number, count] of found.strokesOnPages.entries()) {
          const last = from + count === strokes.length;
          expect(count === 1 || page(number, from, from + count, SMALLEST_POINTS, last).height <= 1).toBe(true);
          if (!last) expect(page(number, from, from + count + 1, SMALLEST_POINTS, from + count + 1 === strokes.length).height).toBeGreaterThan(1);
          from += count;
        }
        expect(from).toBe(strokes.length);
      }),
    );
  });
});
