import { describe, expect, it } from 'vitest';
import { type AskedWay, changeOfMindSeconds } from '../../../../src/core/guidance/ways/change-of-mind.ts';

const DEGREE = Math.PI / 180;

/** Turns in degrees, left positive, and lines in metres as text, in their order. */
function asked(pieces: readonly (number | string)[], bankDegrees = 45, runInSeconds = 4): AskedWay {
  const radius = 300;
  const segments = pieces.map((piece) =>
    typeof piece === 'number'
      ? { lengthMetres: Math.abs(piece) * DEGREE * radius, curvaturePerMetre: Math.sign(piece) / radius }
      : { lengthMetres: Number.parseFloat(piece), curvaturePerMetre: 0 },
  );
  const first = typeof pieces[0] === 'number' && Math.abs(pieces[0]) > 4 ? (Math.sign(pieces[0]) as 1 | -1) : 0;
  return {
    path: { start: { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0 }, segments },
    bankRadians: bankDegrees * DEGREE,
    runInSeconds,
    firstSign: first,
  };
}

describe('a change of mind', () => {
  it('is none while turns are flown that were asked for, and when the first of them is done', () => {
    expect(changeOfMindSeconds(asked([60, '200', -90]), asked([65, '200', -90]), false)).toBe(0);
    expect(changeOfMindSeconds(asked(['200', -90]), asked([5, '200', -90]), false)).toBe(0);
    // A correction of the heading is no turn, whichever side it is to.
    expect(changeOfMindSeconds(asked(['200', -90]), asked([3, '200', -90]), false)).toBe(0);
  });

  it('costs 4 s where another turn comes first, more where it is the other way round, and most in a turn just begun', () => {
    expect(changeOfMindSeconds(asked([10, '200', -90]), asked(['200', -90]), false)).toBe(4);
    expect(changeOfMindSeconds(asked([-30, '200', 90]), asked([90]), false)).toBe(12);
    expect(changeOfMindSeconds(asked([-30, '200', 90]), asked([90]), true)).toBe(24);
  });

  it('costs half a second for another step of bank or run-in, and a part of a step its share', () => {
    expect(changeOfMindSeconds(asked([80], 47.5), asked([80]), false)).toBeCloseTo(0.52, 2);
    expect(changeOfMindSeconds(asked([80], 46.25), asked([80]), false)).toBeCloseTo(0.26, 2);
    expect(changeOfMindSeconds(asked([80], 45, 2.8), asked([80]), false)).toBeCloseTo(0.48, 9);
  });
});
