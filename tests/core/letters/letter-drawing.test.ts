import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { createSvgPathSink, drawLetterPath, type DrawnArc, type PathSink } from '../../../src/core/letters/letter-drawing.ts';
import { type LetterPath, letterPathEnd } from '../../../src/core/letters/letter-path.ts';

const halfCircle: LetterPath = { start: { xMetres: 0, yMetres: 0, directionRadians: 0 }, segments: [{ lengthMetres: Math.PI, curvaturePerMetre: 1 }] };

type Call = readonly ['move' | 'line', number, number] | readonly ['arc', DrawnArc];

function recorded(path: LetterPath): Call[] {
  const calls: Call[] = [];
  const sink: PathSink = {
    moveTo: (x, y) => void calls.push(['move', x, y]),
    lineTo: (x, y) => void calls.push(['line', x, y]),
    arcTo: (arc) => void calls.push(['arc', arc]),
  };
  drawLetterPath(path, sink);
  return calls;
}

describe('drawing', () => {
  test('a half circle comes in two equal arcs round its centre', () => {
    const [move, first, second] = recorded(halfCircle);
    expect(move).toEqual(['move', 0, 0]);
    expect(first).toEqual([
      'arc',
      expect.objectContaining({ centreX: expect.closeTo(0, 12), centreY: 1, radius: 1, startRadians: -Math.PI / 2, sweepRadians: Math.PI / 2 }),
    ]);
    expect(second?.[1]).toMatchObject({ endX: expect.closeTo(0, 12), endY: expect.closeTo(2, 12), sweepRadians: Math.PI / 2 });
  });

  test('hands arcs on without a gap, each on its circle and under a third of a turn and a bit', () => {
    const segment = fc.record({
      lengthMetres: fc.double({ min: 1, max: 4000, noNaN: true }),
      curvaturePerMetre: fc.double({ min: -1 / 250, max: 1 / 250, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(segment, { minLength: 1, maxLength: 6 }), fc.double({ min: 0, max: 6.28, noNaN: true }), (segments, directionRadians) => {
        const path = { start: { xMetres: 10, yMetres: -20, directionRadians }, segments };
        let [x, y] = [10, -20];
        for (const call of recorded(path)) {
          if (call[0] !== 'arc') {
            [x, y] = [call[1], call[2]];
            continue;
          }
          const arc = call[1];
          expect(Math.abs(arc.sweepRadians)).toBeLessThanOrEqual((2 * Math.PI) / 3 + 1e-9);
          const tolerance = 1e-6 + arc.radius * 1e-9;
          expect(Math.abs(arc.centreX + arc.radius * Math.cos(arc.startRadians) - x)).toBeLessThan(tolerance);
          expect(Math.abs(arc.centreY + arc.radius * Math.sin(arc.startRadians) - y)).toBeLessThan(tolerance);
          expect(Math.abs(arc.centreX + arc.radius * Math.cos(arc.startRadians + arc.sweepRadians) - arc.endX)).toBeLessThan(tolerance);
          [x, y] = [arc.endX, arc.endY];
        }
        const end = letterPathEnd(path);
        expect(Math.hypot(end.xMetres - x, end.yMetres - y)).toBeLessThan(1e-6);
      }),
    );
  });

  test('writes SVG path data with y down', () => {
    const sink = createSvgPathSink(0);
    drawLetterPath(halfCircle, sink);
    expect(sink.pathData()).toBe('M0 0A1 1 0 0 0 1 -1A1 1 0 0 0 0 -2');
    const line = createSvgPathSink(1);
    drawLetterPath({ start: { xMetres: 0.04, yMetres: -0.04, directionRadians: 0 }, segments: [{ lengthMetres: 2, curvaturePerMetre: 0 }] }, line);
    expect(line.pathData()).toBe('M0 0L2 0');
  });
});
