import { describe, expect, it } from 'vitest';
import { circleCue, type WaitingCircle } from '../../../../src/core/guidance/formation/wait-on-circle.ts';
import { solveWay } from '../../../../src/core/guidance/ways/solve-way.ts';
import { airPathEnd, airPathLengthMetres, advanceAirPose } from '../../../../src/core/paths/air-path.ts';
import { turnRadiusMetres } from '../../../../src/core/paths/turn.ts';

const DEGREE = Math.PI / 180;
const SPEED = 54;
const RADIUS = turnRadiusMetres(SPEED, 45 * DEGREE);
const LIMITS = { trueAirspeedMetresPerSecond: SPEED, maximumBankRadians: 55 * DEGREE };
const circle = (turn: 'left' | 'right'): WaitingCircle => ({
  leave: { airEastMetres: 500, airNorthMetres: -200, directionRadians: 0.7 },
  turn,
  radiusMetres: RADIUS,
  leaveSeconds: 0,
});
const ROUND_SECONDS = (2 * Math.PI * RADIUS) / SPEED;

describe('circleCue', () => {
  it('keeps the planned bank where whole circles come out even', () => {
    const cue = circleCue(circle('left'), circle('left').leave, 3 * ROUND_SECONDS, LIMITS);
    expect(cue.toGoRadians).toBeCloseTo(6 * Math.PI, 6);
    expect(cue.bankRadians / DEGREE).toBeCloseTo(46, 6);
  });

  it('knows when the leaving pose has been passed and no time is left for another circle', () => {
    const passed = advanceAirPose(circle('right').leave, 40, -1 / RADIUS);
    expect(circleCue(circle('right'), passed, 1, LIMITS).toGoRadians).toBeLessThan(0);
  });

  it.each(['left', 'right'] as const)('comes back to the leaving pose in time, turning %s, from 60 m aside', (turn) => {
    for (const seconds of [1.3, 2, 2.4, 3.1, 4.5, 6.2].map((rounds) => rounds * ROUND_SECONDS)) {
      let pose = { ...circle(turn).leave, airEastMetres: 560 };
      let left = seconds;
      let cue = circleCue(circle(turn), pose, left, LIMITS);
      while (left > 0 && cue.toGoRadians > 0.05) {
        const curvature = (turn === 'left' ? 1 : -1) / turnRadiusMetres(SPEED, cue.bankRadians);
        pose = advanceAirPose(pose, SPEED * 0.1, curvature);
        left -= 0.1;
        cue = circleCue(circle(turn), pose, left, LIMITS);
      }
      expect(Math.abs(left)).toBeLessThan(2.5);
      expect(Math.hypot(pose.airEastMetres - 500, pose.airNorthMetres + 200)).toBeLessThan(100);
    }
  });
});

describe('solveWay with time to spare', () => {
  const limits = { ...LIMITS, turningBankRadians: 45 * DEGREE, runInSeconds: 4 };
  const start = { airEastMetres: 1500, airNorthMetres: 600, directionRadians: 2 };
  const here = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };

  it('fills it with circles and ends at the stroke, neither sooner nor much later', () => {
    const plain = solveWay(here, start, { ...limits, earliestSeconds: 0 }, null).seconds;
    for (const more of [0, 5, 12, 25, 40, 70, 150, 400]) {
      const way = solveWay(here, start, { ...limits, earliestSeconds: plain + more }, null);
      expect(way.seconds).toBeGreaterThan(plain + more - 4);
      expect(way.seconds).toBeLessThan(plain + more + 20);
      expect(airPathLengthMetres(way.path) / SPEED).toBeCloseTo(way.seconds, 6);
      const end = airPathEnd(way.path);
      expect(end.airEastMetres).toBeCloseTo(1500, 6);
      expect(end.airNorthMetres).toBeCloseTo(600, 6);
    }
  });
});
