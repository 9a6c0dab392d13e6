import { expect, it } from 'vitest';
import { earTurns } from '../../../../src/core/guidance/ways/ear-turns.ts';
import { airPathLengthMetres, airPoseAt } from '../../../../src/core/paths/air-path.ts';
import { relativeTo } from '../../../../src/core/paths/project-on-path.ts';

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const START = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 };
const LIMITS = { speedMetresPerSecond: 53.66, banksRadians: [radians(30), radians(45)], turnShare: 1 };
const STEEP = radians(45);

it('turns onto the line at once, steep and a little off it, or steep and then medium onto it', () => {
  // The worked value: 330 m left of an eastward line, flying south.
  const turns = earTurns({ airEastMetres: -900, airNorthMetres: 330, directionRadians: radians(-90) }, START, LIMITS);
  const steep = turns.find(({ bankRadians, path }) => bankRadians === STEEP && path.segments.length === 1)!;
  expect(steep.asideMetres).toBeCloseTo(36.4, 1);
  const mixed = turns.find(({ bankRadians, word, asideMetres }) => bankRadians === STEEP && word === 'LSL' && asideMetres === 0)!;
  const [first] = mixed.path.segments;
  expect((first!.lengthMetres * first!.curvaturePerMetre * 180) / Math.PI).toBeCloseTo(56.2, 1);
});

it('ends on the line, or as far off it as it says, along it, with the run-in that it says', () => {
  let checked = 0;
  for (let off = -175; off <= 175; off += 14) {
    for (let left = -700; left <= 700; left += 50) {
      const from = { airEastMetres: -800, airNorthMetres: left, directionRadians: radians(off) };
      for (const turn of earTurns(from, START, { ...LIMITS, turnShare: 1.1 })) {
        const end = airPoseAt(turn.path, airPathLengthMetres(turn.path));
        const { aheadMetres, rightMetres } = relativeTo(START, end);
        expect(Math.abs(rightMetres)).toBeCloseTo(turn.asideMetres, 3);
        expect(-aheadMetres).toBeCloseTo(turn.runInMetres, 3);
        expect(Math.cos(end.directionRadians)).toBeCloseTo(1, 6);
        checked += 1;
      }
    }
  }
  expect(checked).toBeGreaterThan(500);
});
