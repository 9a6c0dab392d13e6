import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { at, beltStroke, type BeltSketch, from, loop } from '../../../src/core/letters/belt.ts';
import { stretchedBelt } from '../../../src/core/letters/depth-stretch.ts';
import type { GlyphStroke } from '../../../src/core/letters/glyph.ts';
import { letterPathFromGlyph } from '../../../src/core/letters/glyph-path.ts';
import { letterPathEnd, letterPathLengthMetres, letterPoseAt } from '../../../src/core/letters/letter-path.ts';

const U = from(0, 1).left(0.35, 0.35, 0.35).to(0.7, 1);

function laid(sketch: BeltSketch | null): GlyphStroke {
  const stroke = sketch === null ? null : beltStroke(sketch);
  if (stroke === null) throw new Error('the belt does not fit');
  return stroke;
}

describe('a belt', () => {
  test('down, half round a pulley, up: a U', () => {
    const stroke = laid(U);
    expect(stroke.start).toEqual({ xHeights: 0, yHeights: 1, directionRadians: (3 * Math.PI) / 2 });
    expect(stroke.segments.map(({ curvaturePerHeight }) => curvaturePerHeight)).toEqual([0, 1 / 0.35, 0]);
    expect(stroke.segments.map(({ lengthHeights }) => lengthHeights)).toEqual([0.65, 0.35 * Math.PI, 0.65].map((length) => expect.closeTo(length, 12)));
  });

  test('starts and ends on its pulley, facing points', () => {
    const stroke = laid(at(5, 0).left(0, 0, 0.4).until(0, -5));
    expect(stroke.start).toMatchObject({ xHeights: 0.4, yHeights: expect.closeTo(0, 12), directionRadians: Math.PI / 2 });
    expect(stroke.segments).toEqual([{ lengthHeights: expect.closeTo(0.4 * 1.5 * Math.PI, 12), curvaturePerHeight: 2.5 }]);
  });

  test('round one pulley is a circle, round two an oblong', () => {
    expect(laid(loop().right(0, 0, 0.25).close())).toMatchObject({ closed: true, segments: [{ lengthHeights: Math.PI / 2, curvaturePerHeight: -4 }] });
    expect(laid(loop().left(0, 1, 0.5).left(0, 0, 0.5).close()).segments).toHaveLength(4);
  });

  test('crossing pulleys that just touch swaps the turn without a line', () => {
    const stroke = laid(at(1, 1).left(0, 0.75, 0.25).right(0, 0.25, 0.25).until(-1, 0));
    expect(stroke.segments.map(({ curvaturePerHeight }) => Math.sign(curvaturePerHeight))).toEqual([1, -1]);
  });

  test('pulleys without a common tangent give none', () => {
    expect(beltStroke(from(0, 0).left(0, 0.1, 0.25).to(1, 1))).toBeNull();
    expect(beltStroke(at(1, 1).left(0, 0.7, 0.25).right(0, 0.3, 0.25).until(-1, 0))).toBeNull();
  });

  test('an open belt cannot be closed, nor a closed one left open', () => {
    expect(() => beltStroke(from(0, 0).left(1, 1, 0.25).close())).toThrow(RangeError);
    expect(() => beltStroke(loop().left(1, 1, 0.25).to(0, 0))).toThrow(RangeError);
  });

  test('ends where it was laid to, whatever it is laid round', () => {
    const pulley = fc.record({ x: fc.double({ min: 0, max: 3, noNaN: true }), y: fc.double({ min: 0, max: 3, noNaN: true }), left: fc.boolean() });
    let laidOut = 0;
    fc.assert(
      fc.property(fc.array(pulley, { maxLength: 4 }), (pulleys) => {
        let belt = from(-1, -1);
        for (const { x, y, left } of pulleys) belt = left ? belt.left(x, y, 0.25) : belt.right(x, y, 0.25);
        const stroke = beltStroke(belt.to(4, 4));
        if (stroke === null) return;
        laidOut += 1;
        const end = letterPathEnd(letterPathFromGlyph(stroke, 1, 0, 0));
        expect(Math.hypot(end.xMetres - 4, end.yMetres - 4)).toBeLessThan(1e-9);
      }),
    );
    expect(laidOut).toBeGreaterThan(20);
  });
});

describe('depth', () => {
  test('a U drawn deeper keeps its turn and gains length in its stems', () => {
    const stroke = laid(stretchedBelt(U, 1.4));
    expect(stroke.segments).toMatchObject([{ curvaturePerHeight: 0 }, { curvaturePerHeight: 1 / 0.35 }, { curvaturePerHeight: 0 }]);
    expect(letterPathLengthMetres(letterPathFromGlyph(stroke, 1, 0, 0))).toBeCloseTo(2 * (1.4 - 0.35) + 0.35 * Math.PI, 9);
  });

  test('a bowl grows, and its top and bottom stay on their lines', () => {
    const stroke = laid(stretchedBelt(from(0, 1).right(0.32, 0.75, 0.25).to(0, 0.5), 1.2));
    const path = letterPathFromGlyph(stroke, 1, 0, 0);
    const y = Array.from({ length: 101 }, (_, step) => letterPoseAt(path, (letterPathLengthMetres(path) * step) / 100).yMetres);
    expect(Math.max(...y)).toBeCloseTo(1.2, 3);
    expect(Math.min(...y)).toBeCloseTo(0.6, 3);
    expect(stroke.segments.find(({ curvaturePerHeight }) => curvaturePerHeight !== 0)?.curvaturePerHeight).toBeCloseTo(-1 / 0.3, 9);
  });
});
