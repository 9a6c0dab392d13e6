import { describe, expect, it } from 'vitest';
import { measureSortie } from './measure-sortie.ts';

describe('sorties whose ship was blanked by a position that had not jumped', () => {
  // One fix in thousands lay over 20 m from its prediction; the ship lost its window, and in the first of them passed another at 52 m.
  it.each([
    [92, 'YES'],
    [10, 'BRAVO'],
  ])('%i, %s: written whole, and nobody near anybody', { timeout: 120_000 }, (seed, text) => {
    const sortie = measureSortie(seed);
    expect(sortie).toMatchObject({ text, fault: null, whole: true, strokesOutsideWindows: 0 });
    expect(sortie.nearestMetres).toBeGreaterThan(300);
  });
});

describe('a screen that goes dark under smoke', () => {
  // Seeds 7 and 97 went on with the stroke when the page was back, its smoke begun anew half a kilometre along.
  it.each([7, 97])('seed %i: the stroke is left, and written whole from the circle, inside a window', { timeout: 120_000 }, (seed) => {
    expect(measureSortie(seed)).toMatchObject({ fault: 'killed', whole: true, strokesOutsideWindows: 0 });
  });
});

describe('a stroke begun ten minutes after the datum', () => {
  // A redo waits on its circle for its next window; the air has by then wandered a kilometre from its mean, and the judge
  // who reckoned with the mean took stroke 4 for stroke 5 and called it outside.
  it('seed 91: is told from its neighbours by the true air, and a redo begins inside a window', { timeout: 120_000 }, () => {
    expect(measureSortie(91)).toMatchObject({ text: 'AZURE', fault: 'redo', whole: true, strokes: 11, strokesOutsideWindows: 0 });
  });
});

describe('a clock set before the datum, and positions late behind another', () => {
  // Asked about, such a ship once wrote on all the same: in a formation the doubt was forgotten at each fix.
  it.each([17, 65])('seed %i: nobody near anybody, and nothing is written by a ship that was asked about', { timeout: 120_000 }, (seed) => {
    const sortie = measureSortie(seed, 'clock set');
    expect(sortie).toMatchObject({ askedForNothing: 0, strokesOutsideWindows: 0, hiddenLate: { strokesAfterAsked: 0 } });
    expect(sortie.nearestMetres).toBeGreaterThan(300);
  });
});

describe('ships that fell out of their windows, and waited minutes for the next', () => {
  // In order: a turn cued a second late at its steepest; a line that was missed by 40 m, and not tried; ways that did not hurry,
  // or not lose a second, in time.
  it.each([71, 106, 240, 339])('seed %i: keep them, and write whole in the planned time', { timeout: 120_000 }, (seed) => {
    const sortie = measureSortie(seed);
    expect(sortie).toMatchObject({ fault: null, whole: true, strokesOutsideWindows: 0 });
    expect(sortie.durationShare).toBeLessThan(1.1);
    expect(sortie.nearestMetres).toBeGreaterThan(300);
  });
});
