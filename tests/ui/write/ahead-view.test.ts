import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import type { FlightView } from '../../../src/core/guidance/flight-view.ts';
import { type AirPath, type AirPose, airPathLengthMetres, airPoseAt } from '../../../src/core/paths/air-path.ts';
import { type AheadFrame, aheadFrame, aheadTransform } from '../../../src/ui/write/ahead-view.ts';

const size = { widthPixels: 600, heightPixels: 300 };
const metres = fc.double({ min: -4000, max: 4000, noNaN: true });
const radians = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true });
const pose = fc.record({ airEastMetres: metres, airNorthMetres: metres, directionRadians: radians });

const viewOf = (way: AirPath | null, stroke: AirPath, strokeDoneMetres = 0): FlightView => ({
  own: null,
  way,
  stroke,
  standing: null,
  strokeDoneMetres,
  doneStrokeIndexes: [],
  skippedStrokeIndexes: [],
  variationDegrees: 0,
  windSigmaMetresPerSecond: null,
  doubts: [],
  placeDoubted: false,
  askedSeconds: null,
});

/** Applies what the transform says, as SVG 2 section 8 defines translate and rotate, to a drawn point. */
function onScreen(transform: string, point: { readonly airEastMetres: number; readonly airNorthMetres: number }, { pixelsPerMetre }: AheadFrame) {
  const numbers = [...transform.matchAll(/-?\d+(?:\.\d+)?/g)].map(Number);
  const [toX = NaN, toY = NaN, degrees = NaN, moveX = NaN, moveY = NaN] = numbers;
  const x = point.airEastMetres * pixelsPerMetre + moveX;
  const y = -point.airNorthMetres * pixelsPerMetre + moveY;
  const turn = (degrees * Math.PI) / 180;
  return { x: toX + x * Math.cos(turn) - y * Math.sin(turn), y: toY + x * Math.sin(turn) + y * Math.cos(turn) };
}

describe('aheadTransform', () => {
  it('puts the aircraft on its mark and what is ahead of it above, what is right of it to the right', () => {
    fc.assert(
      fc.property(pose, (own) => {
        const frame = { pixelsPerMetre: 0.1, ownXPixels: 300, ownYPixels: 200 };
        const transform = aheadTransform(own, frame);
        const at = (aheadMetres: number, rightMetres: number) =>
          onScreen(
            transform,
            {
              airEastMetres: own.airEastMetres + aheadMetres * Math.cos(own.directionRadians) + rightMetres * Math.sin(own.directionRadians),
              airNorthMetres: own.airNorthMetres + aheadMetres * Math.sin(own.directionRadians) - rightMetres * Math.cos(own.directionRadians),
            },
            frame,
          );
        expect(at(0, 0).x).toBeCloseTo(300, 0);
        expect(at(0, 0).y).toBeCloseTo(200, 0);
        expect(at(500, 0).x).toBeCloseTo(300, 0);
        expect(at(500, 0).y).toBeCloseTo(150, 0);
        expect(at(0, 500).x).toBeCloseTo(350, 0);
        expect(at(0, 500).y).toBeCloseTo(200, 0);
      }),
    );
  });
});

describe('aheadFrame', () => {
  const stroke = (start: AirPose): AirPath => ({
    start,
    segments: [
      { lengthMetres: 900, curvaturePerMetre: 0 },
      { lengthMetres: 800, curvaturePerMetre: 1 / 350 },
    ],
  });

  it('shows the aircraft and the whole stroke', () => {
    fc.assert(
      fc.property(pose, pose, (own, start) => {
        const path = stroke(start);
        const frame = aheadFrame(own, viewOf({ start: own, segments: [{ lengthMetres: 300, curvaturePerMetre: 0 }] }, path), size, null);
        const transform = aheadTransform(own, frame);
        const length = airPathLengthMetres(path);
        for (const along of [0, 0.25 * length, 0.5 * length, 0.75 * length, length]) {
          const { x, y } = onScreen(transform, airPoseAt(path, along), frame);
          expect(x).toBeGreaterThan(0);
          expect(x).toBeLessThan(size.widthPixels);
          expect(y).toBeGreaterThan(0);
          expect(y).toBeLessThan(size.heightPixels);
        }
      }),
    );
  });

  it('stands still while what it shows changes little, and draws closer when it has become small', () => {
    const own = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };
    const path = stroke({ airEastMetres: 900, airNorthMetres: 200, directionRadians: 0 });
    const first = aheadFrame(own, viewOf(null, path), size, null);
    const later = { ...own, airEastMetres: 60 };
    expect(aheadFrame(later, viewOf(null, path, 0), size, first)).toBe(first);
    const near = airPoseAt(path, 1500);
    const close = aheadFrame(near, viewOf(null, path, 1500), size, first);
    expect(close.pixelsPerMetre).toBeGreaterThan(1.5 * first.pixelsPerMetre);
  });

  it('does not magnify the last metres without end', () => {
    const path = stroke({ airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 });
    const length = airPathLengthMetres(path);
    const frame = aheadFrame(airPoseAt(path, length - 1), viewOf(null, path, length - 1), size, null);
    expect(size.heightPixels / frame.pixelsPerMetre).toBeGreaterThan(500);
  });
});
