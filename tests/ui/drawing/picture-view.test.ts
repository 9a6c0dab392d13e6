import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { airPathFromLetter, letterFromAir } from '../../../src/core/paths/letter-frame.ts';
import { fittingView, pictureDirection, picturePoint, type PictureView } from '../../../src/ui/drawing/picture-view.ts';
import { planePathFromAir, planePathFromLetter, planePathsBox } from '../../../src/ui/drawing/plane-path.ts';

const finite = (bound: number) => fc.double({ min: -bound, max: bound, noNaN: true });

describe('a picture of the air mass from below', () => {
  it('is the letter frame: mirrored, then turned by the facing', () => {
    fc.assert(
      fc.property(finite(Math.PI), finite(20_000), finite(20_000), (facingRadians, airEastMetres, airNorthMetres) => {
        const view: PictureView = { pixelsPerMetre: 1, turnRadians: -facingRadians, mirrored: true, originXPixels: 0, originUpPixels: 0 };
        const letter = letterFromAir({ airEastMetres, airNorthMetres }, { facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } });
        const seen = picturePoint(airEastMetres, airNorthMetres, view);
        expect(seen.xPixels).toBeCloseTo(letter.xMetres, 6);
        expect(seen.upPixels).toBeCloseTo(letter.yMetres, 6);
      }),
    );
  });

  it('shows a stroke in the direction it has as the crowd reads it', () => {
    const facingRadians = 3.5;
    const letter = { start: { xMetres: 120, yMetres: -80, directionRadians: 0.7 }, segments: [{ lengthMetres: 400, curvaturePerMetre: 1 / 300 }] };
    const air = airPathFromLetter(letter, { facingRadians, middle: { airEastMetres: 0, airNorthMetres: 0 } });
    const view: PictureView = { pixelsPerMetre: 1, turnRadians: -facingRadians, mirrored: true, originXPixels: 0, originUpPixels: 0 };
    expect(Math.cos(pictureDirection(air.start.directionRadians, view) - 0.7)).toBeCloseTo(1, 12);
    const fromBelow = planePathsBox([planePathFromAir(air)], -facingRadians, true);
    const asRead = planePathsBox([planePathFromLetter(letter)], 0, false);
    expect(fromBelow?.lowXMetres).toBeCloseTo(asRead?.lowXMetres ?? Number.NaN, 6);
    expect(fromBelow?.highYMetres).toBeCloseTo(asRead?.highYMetres ?? Number.NaN, 6);
  });
});

describe('the fitting view', () => {
  it('keeps every corner inside the margin and touches it on one axis', () => {
    fc.assert(
      fc.property(
        finite(5000),
        finite(5000),
        fc.double({ min: 10, max: 9000, noNaN: true }),
        fc.double({ min: 10, max: 9000, noNaN: true }),
        (x, y, wide, high) => {
          const box = { lowXMetres: x, highXMetres: x + wide, lowYMetres: y, highYMetres: y + high };
          const view = fittingView(box, { widthPixels: 800, heightPixels: 300 }, 20, 0, false);
          const low = picturePoint(box.lowXMetres, box.lowYMetres, view);
          const top = picturePoint(box.highXMetres, box.highYMetres, view);
          const slack = Math.min(low.xPixels - 20, 780 - top.xPixels, low.upPixels - 20, 280 - top.upPixels);
          expect(slack).toBeGreaterThan(-1e-6);
          expect(Math.min(low.xPixels - 20, low.upPixels - 20)).toBeLessThan(1e-6);
        },
      ),
    );
  });

  it('shows a box without extent at one pixel a metre', () => {
    const box = { lowXMetres: 5, highXMetres: 5, lowYMetres: 5, highYMetres: 5 };
    expect(fittingView(box, { widthPixels: 100, heightPixels: 100 }, 10, 0, false).pixelsPerMetre).toBe(1);
  });
});
