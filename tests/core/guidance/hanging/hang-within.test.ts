import { describe, expect, it } from 'vitest';
import { wordJob } from '../../../../e2e/flight/fly-word.ts';
import { hangText } from '../../../../src/core/guidance/hanging/hang-text.ts';
import { farthestMetres } from '../../../../src/core/guidance/hanging/hanging-wish.ts';
import { hangWithin } from '../../../../src/core/guidance/hanging/hang-within.ts';
import type { HangingWish } from '../../../../src/core/guidance/hanging/hanging.ts';
import { flyForbidden } from '../../../flight/forbidden-place.ts';

const DEGREE = Math.PI / 180;
const WIND = { eastMetresPerSecond: 0, northMetresPerSecond: 0 };
const square = (east: number, north: number, half: number): { eastMetres: number; northMetres: number }[] =>
  [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([x, y]) => ({ eastMetres: east + x! * half, northMetres: north + y! * half }));

/** One spot of smoke, in calm, whose best place is 2,845 m north: 2,700 m up at 43.5 degrees. */
const wish: HangingWish = {
  facingRadians: 0,
  viewElevationRadians: 45 * DEGREE,
  layerAboveSiteMetres: 2700,
  middle: { airEastMetres: 0, airNorthMetres: 0 },
  writingSeconds: 600,
  readingSeconds: 600,
  limits: { flown: [{ airEastMetres: 0, airNorthMetres: 0, atSeconds: 0 }], marginMetres: 0 },
};

describe('a text hung inside what was agreed', () => {
  it('hangs at its best place where nothing forbids it', () => {
    expect(hangWithin(wish, WIND)).toEqual(hangText(wish, WIND));
    const roomy = { ...wish, limits: { ...wish.limits!, inside: square(0, 2845, 500), outside: [square(0, -3000, 500)] } };
    expect(hangWithin(roomy, WIND).forbidden).toBeUndefined();
  });

  it('goes aside where an area lies on it, as near as the crowd sees least worse, and says so', () => {
    const barred = { ...wish, limits: { ...wish.limits!, outside: [square(0, 2845, 600)] } };
    const { movedEastMetres: east, movedNorthMetres: north, forbidden } = hangWithin(barred, WIND);
    expect(forbidden).toBe('aside');
    expect(Math.max(Math.abs(east), Math.abs(north - 2845))).toBeGreaterThan(600);
    expect(Math.hypot(east, north - 2845)).toBeLessThan(1000);
  });

  it('stays in the told area, and as briefed where no place is allowed', () => {
    const told = { ...wish, limits: { ...wish.limits!, inside: square(0, 2845 - 1500, 700) } };
    const hung = hangWithin(told, WIND);
    expect(hung.forbidden).toBe('aside');
    expect(hung.movedNorthMetres).toBeLessThanOrEqual(2845 - 800);
    const nowhere = { ...wish, limits: { ...wish.limits!, inside: square(0, 30_000, 700) } };
    expect(hangWithin(nowhere, WIND)).toMatchObject({ forbidden: 'nowhere', movedEastMetres: 0, movedNorthMetres: 0 });
  });

  it('hangs no farther from its briefed place than the fuel above the reserve takes the ship there and back', () => {
    const near = { ...wish, limits: { ...wish.limits!, farthestMetres: 2000 } };
    const hung = hangWithin(near, WIND);
    expect(hung.forbidden).toBe('aside');
    expect(Math.hypot(hung.movedEastMetres, hung.movedNorthMetres)).toBeLessThanOrEqual(2000);
    expect(hangWithin({ ...wish, limits: { ...wish.limits!, farthestMetres: 3000 } }, WIND).forbidden).toBeUndefined();
  });

  it('reckons that by hand: 4 gallons above the reserve at 20 an hour are 12 minutes, six of them out at 100 kt: 18.5 km', () => {
    const job = wordJob('HI');
    const ship = { ...job.ships[0]!, fuelGallons: 10, fuelGallonsPerHour: 20, fuelReserveMinutes: 0, otherFlyingMinutes: 18, trueAirspeedKnots: 100 };
    const written = { shipIndex: 0, legs: [], oilKilograms: 0, smokeSeconds: 0, heightStepMetres: 0, toggles: 0, distanceMetres: 0 };
    expect(farthestMetres(ship, written)).toBeCloseTo(18_520, 0);
    expect(farthestMetres({ ...ship, otherFlyingMinutes: null }, written)).toBeNull();
    expect(farthestMetres({ ...ship, fuelGallons: 5 }, written)).toBe(0);
  });

  it('writes a word beside the area that its first stroke would have crossed, and shows the choice', () => {
    expect(flyForbidden(wordJob('JULY'), 5, 10)).toMatchObject({
      finished: true,
      strokesOutside: 0,
      choice: expect.stringMatching(/FORBIDDEN: LEAN \d+°, \d+° HIGH/),
    });
  });
});
