import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { type DrawnArc, drawSegments } from '../../../src/core/letters/letter-drawing.ts';
import type { PictureView } from '../../../src/ui/drawing/picture-view.ts';
import { createPolylineSink } from '../../../src/ui/drawing/polyline-sink.ts';
import { viewSink } from '../../../src/ui/drawing/view-sink.ts';

const views = fc.record({
  pixelsPerMetre: fc.double({ min: 0.01, max: 3, noNaN: true }),
  turnRadians: fc.double({ min: -4, max: 4, noNaN: true }),
  mirrored: fc.boolean(),
  originXPixels: fc.double({ min: -900, max: 900, noNaN: true }),
  originUpPixels: fc.double({ min: -900, max: 900, noNaN: true }),
});

describe('a drawing through a view', () => {
  it('stays joined: each arc begins where the last piece ended, at its own radius', () => {
    fc.assert(
      fc.property(views, (view: PictureView) => {
        let at = { x: Number.NaN, y: Number.NaN };
        const arcs: DrawnArc[] = [];
        const sink = viewSink(view, {
          moveTo: (x, y) => void (at = { x, y }),
          lineTo: (x, y) => void (at = { x, y }),
          arcTo(arc) {
            expect(arc.centreX + arc.radius * Math.cos(arc.startRadians)).toBeCloseTo(at.x, 6);
            expect(arc.centreY + arc.radius * Math.sin(arc.startRadians)).toBeCloseTo(at.y, 6);
            const end = arc.startRadians + arc.sweepRadians;
            expect(arc.centreX + arc.radius * Math.cos(end)).toBeCloseTo(arc.endX, 6);
            expect(arc.centreY + arc.radius * Math.sin(end)).toBeCloseTo(arc.endY, 6);
            at = { x: arc.endX, y: arc.endY };
            arcs.push(arc);
          },
        });
        drawSegments(
          10,
          -20,
          0.4,
          [
            { lengthMetres: 300, curvaturePerMetre: 1 / 120 },
            { lengthMetres: 90, curvaturePerMetre: 0 },
            { lengthMetres: 200, curvaturePerMetre: -1 / 80 },
          ],
          sink,
        );
        expect(arcs.length).toBe(4);
      }),
    );
  });

  it('walks a circle in steps no longer than asked and keeps its end', () => {
    const line = createPolylineSink(5);
    drawSegments(0, 0, 0, [{ lengthMetres: 2 * Math.PI * 50, curvaturePerMetre: 1 / 50 }], line);
    const points = line.points();
    expect(points.length).toBeGreaterThan(60);
    for (const { xPixels, upPixels } of points) expect(Math.hypot(xPixels, upPixels - 50)).toBeCloseTo(50, 6);
    expect(points.at(-1)?.xPixels).toBeCloseTo(0, 6);
    expect(points.at(-1)?.upPixels).toBeCloseTo(0, 6);
  });
});
