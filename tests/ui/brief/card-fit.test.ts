import { describe, expect, it } from 'vitest';
import { type CardFit, firstFit, nextFit, SMALLEST_POINTS } from '../../../src/ui/brief/card-fit.ts';

/** Lays cards out on paper where a stroke of 10 points takes a tenth of a page, and page 1 has the least room. */
function laidOut(strokes: number, room: (page: number) => number): CardFit {
  let fit = firstFit(strokes);
  for (let tries = 0; tries < 200; tries += 1) {
    const next = nextFit(
      fit,
      fit.strokesOnPages.map((count, page) => (count * fit.points) / 100 > room(page)),
    );
    if (next === null) return fit;
    fit = next;
  }
  throw new Error('never settled');
}

describe('the fit of a card', () => {
  it('sets few strokes in the largest type, more in the largest that holds them', () => {
    expect(laidOut(3, () => 1)).toEqual({ points: 15, strokesOnPages: [3] });
    expect(laidOut(8, () => 1)).toEqual({ points: 12.5, strokesOnPages: [8] });
  });

  it('goes on overleaf rather than under 11 points, each stroke once, the first pages full', () => {
    const long = laidOut(30, (page) => (page === 0 ? 0.7 : 1.2));
    expect(long.points).toBe(SMALLEST_POINTS);
    expect(long.strokesOnPages).toEqual([6, 10, 10, 4]);
    expect(long.strokesOnPages.reduce((sum, count) => sum + count, 0)).toBe(30);
  });

  it('leaves a stroke that fills more than a page by itself', () => {
    expect(laidOut(2, () => 0.05).strokesOnPages).toEqual([1, 1]);
  });
});
