import { describe, expect, it } from 'vitest';
import type { Leg, ShipPlan } from '../../../src/core/plan/plan.ts';
import { partialSegments } from '../../../src/ui/drawing/partial-segments.ts';
import { legShare, shipMoment } from '../../../src/ui/drawing/plan-moment.ts';

const path = (airEastMetres: number, lengthMetres: number) => ({
  start: { airEastMetres, airNorthMetres: 0, directionRadians: 0 },
  segments: [{ lengthMetres, curvaturePerMetre: 0 }],
});
const smoke: Leg = {
  kind: 'smoke',
  strokeIndex: 0,
  letterIndex: 0,
  character: 'I',
  style: 'crisp',
  sources: [],
  path: path(0, 500),
  startSeconds: 0,
  endSeconds: 10,
};
// A reposition that takes longer than its length over the airspeed, as rolls make it.
const way: Leg = { kind: 'reposition', path: path(500, 600), startSeconds: 10, endSeconds: 30 };
const ship: ShipPlan = { shipIndex: 0, legs: [smoke, way], smokeSeconds: 10, distanceMetres: 1100, toggles: 1, oilKilograms: 1, heightStepMetres: 0 };

describe('a moment of the plan', () => {
  it('spreads each leg evenly over its own time', () => {
    expect(shipMoment(ship, 5)?.pose.airEastMetres).toBeCloseTo(250, 9);
    expect(shipMoment(ship, 20)?.pose.airEastMetres).toBeCloseTo(800, 9);
    expect(shipMoment(ship, 20)?.leg.kind).toBe('reposition');
    expect(shipMoment(ship, 10)?.leg.kind).toBe('reposition');
  });

  it('waits at the ends before and after', () => {
    expect(shipMoment(ship, -3)?.pose.airEastMetres).toBe(0);
    expect(shipMoment(ship, 99)?.pose.airEastMetres).toBeCloseTo(1100, 9);
    expect(shipMoment({ ...ship, legs: [] }, 5)).toBeNull();
  });

  it('counts a leg without time as done once it is reached', () => {
    const none: Leg = { ...way, startSeconds: 10, endSeconds: 10 };
    expect(legShare(none, 9.9)).toBe(0);
    expect(legShare(none, 10)).toBe(1);
  });
});

describe('part of a path', () => {
  it('cuts the segment in which it ends', () => {
    const segments = [
      { lengthMetres: 100, curvaturePerMetre: 0 },
      { lengthMetres: 50, curvaturePerMetre: 0.01 },
    ];
    expect(partialSegments(segments, 120)).toEqual([segments[0], { lengthMetres: 20, curvaturePerMetre: 0.01 }]);
    expect(partialSegments(segments, 100)).toEqual([segments[0]]);
    expect(partialSegments(segments, 0)).toEqual([]);
    expect(partialSegments(segments, 500)).toEqual(segments);
  });
});
