import { describe, expect, it } from 'vitest';
import type { Way } from '../../../../src/core/guidance/ways/solve-way.ts';
import { wayAdvice } from '../../../../src/core/guidance/ways/way-advice.ts';
import type { TurnCommand } from '../../../../src/core/tracking/turn-command.ts';

const DEGREE = Math.PI / 180;
const RADIUS = 300;
const SPEED = 54;

/** Left by 60 degrees, a line, and left by 80 more. */
function twoTurns(lineMetres: number): Way {
  const segments = [
    { lengthMetres: RADIUS * 60 * DEGREE, curvaturePerMetre: 1 / RADIUS },
    { lengthMetres: lineMetres, curvaturePerMetre: 0 },
    { lengthMetres: RADIUS * 80 * DEGREE, curvaturePerMetre: 1 / RADIUS },
    { lengthMetres: 200, curvaturePerMetre: 0 },
  ];
  const path = { start: { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 }, segments };
  return { path, word: 'LSL', bankRadians: 45 * DEGREE, runInSeconds: 4, seconds: 20, firstSign: 1 };
}

/** The heading asked for, in degrees of the plane, after another was shown. */
function askedAfter(shownDegrees: number | null, lineMetres: number): number {
  const shown: TurnCommand = {
    fromSeconds: 0,
    sense: 'left',
    directionRadians: (shownDegrees ?? 0) * DEGREE,
    bankRadians: 45 * DEGREE,
    startsManoeuvre: false,
  };
  // Of a flight it looks at no more than this.
  const flight = { atSeconds: 10, commands: shownDegrees === null ? [] : [shown], setup: { hanging: {}, valveOnSeconds: 0 } };
  type State = Parameters<typeof wayAdvice>[0];
  const advice = wayAdvice({ flight: flight as unknown as State['flight'], strokeIndex: 0, goAround: null }, twoTurns(lineMetres), SPEED, 0);
  return advice.command.directionRadians / DEGREE;
}

describe('two turns the same way with a short line between them', () => {
  it('are one turn while the line is shorter than 3 s, else two', () => {
    expect(askedAfter(null, 150)).toBeCloseTo(140, 6);
    expect(askedAfter(null, 170)).toBeCloseTo(60, 6);
  });

  it('stay what was shown while the line grows and shrinks: the heading does not jump between the two ends', () => {
    expect([120, 170, 250, 320].map((line) => Math.round(askedAfter(137, line)))).toEqual([140, 140, 140, 140]);
    expect([250, 170, 120, 70].map((line) => Math.round(askedAfter(63, line)))).toEqual([60, 60, 60, 60]);
  });

  it('are told otherwise once they surely are', () => {
    expect(askedAfter(140, 340)).toBeCloseTo(60, 6);
    expect(askedAfter(60, 50)).toBeCloseTo(140, 6);
  });
});
