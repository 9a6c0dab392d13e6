import { describe, expect, test } from 'vitest';
import { trailPieces, trailsFromPlan } from '../../../src/core/sky/trail.ts';
import { plannedText } from './planned.ts';

describe('trails of a plan', () => {
  const plan = plannedText('SKY');
  const trails = trailsFromPlan(plan, 30);
  const legs = plan.ships.flatMap((ship) => ship.legs).filter((leg) => leg.kind === 'smoke');

  test('one for every stroke, with its letter', () => {
    expect(trails.map((trail) => trail.character)).toEqual(legs.map((leg) => leg.character));
    expect(new Set(trails.map((trail) => trail.letterIndex))).toEqual(new Set([0, 1, 2]));
  });

  test('begin and end where and when the strokes do', () => {
    for (const [index, trail] of trails.entries()) {
      const leg = legs[index];
      expect(trail.points[0]?.laidAtSeconds).toBe(leg?.startSeconds);
      expect(trail.points.at(-1)?.laidAtSeconds).toBeCloseTo(leg?.endSeconds ?? NaN, 9);
      expect(trail.points[0]?.airEastMetres).toBeCloseTo(leg?.path.start.airEastMetres ?? NaN, 9);
    }
  });

  test('their bits are at most a step long and add up to the smoke', () => {
    const pieces = trails.flatMap(trailPieces);
    expect(Math.max(...pieces.map((piece) => piece.lengthMetres))).toBeLessThanOrEqual(30 + 1e-9);
    const sum = pieces.reduce((metres, piece) => metres + piece.lengthMetres, 0);
    const flown = (plan.ships[0]?.smokeSeconds ?? NaN) * plan.trueAirspeedMetresPerSecond;
    expect(Math.abs(sum / flown - 1)).toBeLessThan(1e-3);
  });

  test("carry the ship's oil", () => {
    const kilograms = trails.reduce(
      (sum, trail) => sum + trail.kilogramsPerMetre * trailPieces(trail).reduce((metres, piece) => metres + piece.lengthMetres, 0),
      0,
    );
    expect(Math.abs(kilograms / (plan.ships[0]?.oilKilograms ?? NaN) - 1)).toBeLessThan(1e-3);
  });

  test('points on one another are no bit; a step must be one', () => {
    const [trail] = trails;
    const point = trail?.points[0];
    if (trail === undefined || point === undefined) throw new Error('no trail');
    expect(trailPieces({ ...trail, points: [point, point] })).toEqual([]);
    expect(() => trailsFromPlan(plan, 0)).toThrow(/stepMetres/);
  });
});
