import { describe, expect, it } from 'vitest';
import { nextOnStroke } from '../../../../src/core/guidance/strokes/next-on-stroke.ts';
import type { AirPath } from '../../../../src/core/paths/air-path.ts';

const start = { airEastMetres: 0, airNorthMetres: 0, directionRadians: 0.5 };
/** A line, two arcs to the left as of one turn of 1.5 radians, an arc to the right of 1 radian, a line. */
const path: AirPath = {
  start,
  segments: [
    { lengthMetres: 100, curvaturePerMetre: 0 },
    { lengthMetres: 300, curvaturePerMetre: 1 / 300 },
    { lengthMetres: 200, curvaturePerMetre: 1 / 400 },
    { lengthMetres: 350, curvaturePerMetre: -1 / 350 },
    { lengthMetres: 80, curvaturePerMetre: 0 },
  ],
};

describe('nextOnStroke', () => {
  it('says what follows and how far on, arcs of one side being one turn', () => {
    const atLine = nextOnStroke(path, 40);
    expect(atLine).toMatchObject({ sense: 'left', untilMetres: 60 });
    expect(atLine!.directionRadians).toBeCloseTo(2, 3);
    for (const along of [100.5, 350, 599]) {
      const next = nextOnStroke(path, along);
      expect(next).toMatchObject({ sense: 'right' });
      expect(next!.untilMetres).toBeCloseTo(600 - along, 9);
      expect(next!.directionRadians).toBeCloseTo(1, 3);
    }
    expect(nextOnStroke(path, 700)).toMatchObject({ sense: 'either', untilMetres: 250 });
    expect(nextOnStroke(path, 700)!.directionRadians).toBeCloseTo(1, 9);
  });

  it('says how tight the next arc is: its bank is that of the arc, not that of the tightest letter', () => {
    expect(nextOnStroke(path, 40)!.curvaturePerMetre).toBeCloseTo(1 / 300, 12);
    expect(nextOnStroke(path, 350)!.curvaturePerMetre).toBeCloseTo(-1 / 350, 12);
    expect(nextOnStroke(path, 700)!.curvaturePerMetre).toBe(0);
  });

  it('says nothing of the last part, and takes a place before the start for the start', () => {
    expect(nextOnStroke(path, 960)).toBeNull();
    expect(nextOnStroke({ start, segments: [{ lengthMetres: 400, curvaturePerMetre: 0 }] }, 10)).toBeNull();
    expect(nextOnStroke(path, -30)).toMatchObject({ sense: 'left', untilMetres: 130 });
  });
});
