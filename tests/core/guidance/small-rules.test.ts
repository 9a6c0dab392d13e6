import { describe, expect, it } from 'vitest';
import { interceptDirection } from '../../../src/core/guidance/strokes/follow-line.ts';
import { gateRefusal } from '../../../src/core/guidance/gate.ts';
import { solveWay } from '../../../src/core/guidance/ways/solve-way.ts';
import { rollOutDirection, turnAhead } from '../../../src/core/guidance/ways/turn-ahead.ts';
import { airPathEnd } from '../../../src/core/paths/air-path.ts';

const DEGREE = Math.PI / 180;

describe('interceptDirection', () => {
  it('turns left when right of the line, by at most the limit', () => {
    expect(interceptDirection(0, 50, 200, 0.5)).toBeCloseTo(Math.atan(0.25), 12);
    expect(interceptDirection(0, -5000, 200, 0.2)).toBeCloseTo(-0.2, 12);
  });
});

describe('gateRefusal', () => {
  const good = { crossTrackMetres: 10, headingErrorRadians: 0.05, airspeedMetresPerSecond: 54, fixAgeSeconds: 1.2, lateSeconds: -0.3 };
  it('lets a good run-in pass', () => expect(gateRefusal(good, 1200, 54)).toBeNull());
  it.each([
    [{ crossTrackMetres: 49 }, '49 m right of the line'],
    [{ crossTrackMetres: -60 }, '60 m left of the line'],
    [{ headingErrorRadians: -11 * DEGREE }, 'heading 11° off'],
    [{ airspeedMetresPerSecond: 70 }, 'airspeed off'],
    [{ fixAgeSeconds: 2.6 }, 'fix 3 s old'],
    [{ lateSeconds: 1.4 }, 'smoke-on moment missed'],
  ])('refuses %o', (change, reason) => expect(gateRefusal({ ...good, ...change }, 1200, 54)).toBe(reason));
});

describe('turnAhead', () => {
  const start = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };
  const circle = { start, segments: [{ lengthMetres: 2 * Math.PI * 300, curvaturePerMetre: 1 / 300 }] };

  it('joins arcs of one side and stops at the next line', () => {
    const path = {
      start,
      segments: [
        { lengthMetres: 300, curvaturePerMetre: 1 / 300 },
        { lengthMetres: 200, curvaturePerMetre: 1 / 400 },
        { lengthMetres: 50, curvaturePerMetre: 0 },
      ],
    };
    expect(turnAhead(path, 0, 0)).toMatchObject({ sense: 'left', toGoMetres: 500 });
    expect(turnAhead(path, 0, 0)!.toGoRadians).toBeCloseTo(1.5, 12);
    expect(turnAhead(path, 520, 1.5)).toBeNull();
  });

  it('never shows a heading for rolling out that reads as reached: 20 to 200 degrees ahead on a full circle', () => {
    for (let along = 0; along < 2 * Math.PI * 300 * 0.98; along += 7) {
      const turn = turnAhead(circle, along, along / 300)!;
      const aheadDegrees = ((((rollOutDirection(turn) - along / 300) / DEGREE) % 360) + 360) % 360;
      const left = turn.toGoRadians / DEGREE;
      if (left > 20) expect(aheadDegrees).toBeGreaterThan(19);
      expect(aheadDegrees).toBeLessThanOrEqual(200.001);
    }
  });
});

describe('solveWay', () => {
  const limits = { trueAirspeedMetresPerSecond: 54, turningBankRadians: 45 * DEGREE, maximumBankRadians: 55 * DEGREE, runInSeconds: 4, earliestSeconds: 0 };
  const goal = { airEastMetres: 3000, airNorthMetres: -1500, directionRadians: 2 };

  it('ends at the start of the stroke with a straight run-in, from anywhere', () => {
    for (let index = 0; index < 200; index += 1) {
      const from = { airEastMetres: 4000 * Math.sin(index), airNorthMetres: 4000 * Math.cos(index * 1.7), directionRadians: index };
      const way = solveWay(from, goal, limits, null);
      const end = airPathEnd(way.path);
      expect(Math.hypot(end.airEastMetres - goal.airEastMetres, end.airNorthMetres - goal.airNorthMetres)).toBeLessThan(1e-5);
      expect(way.path.segments.at(-1)!.curvaturePerMetre).toBe(0);
      expect(way.bankRadians).toBeLessThanOrEqual(55 * DEGREE + 1e-9);
      expect(way.runInSeconds).toBeGreaterThanOrEqual(1.6);
    }
  });

  it('takes longer when the stroke must not begin yet', () => {
    const from = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };
    const soon = solveWay(from, goal, limits, null);
    const later = solveWay(from, goal, { ...limits, earliestSeconds: soon.seconds + 20 }, null);
    expect(later.seconds).toBeGreaterThan(soon.seconds + 15);
  });
});
