import { describe, expect, it } from 'vitest';
import { nearing, type ShipMoving } from '../../../../src/core/guidance/formation/nearing.ts';

const ship = (change: Partial<ShipMoving>): ShipMoving => ({
  eastMetres: 0,
  northMetres: 0,
  eastMetresPerSecond: 0,
  northMetresPerSecond: 50,
  turnRateRadiansPerSecond: 0,
  ...change,
});

describe('nearing', () => {
  it('meets head on', () => {
    expect(nearing(ship({}), ship({ northMetres: 1000, northMetresPerSecond: -50 }), 20)).toEqual({ metres: 0, inSeconds: 10, side: 'ahead' });
  });

  it('names the side, and looks no farther than asked', () => {
    const abreast = ship({ eastMetres: -400 });
    expect(nearing(ship({}), abreast, 20)).toMatchObject({ metres: 400, inSeconds: 0, side: 'left' });
    expect(nearing(ship({}), ship({ northMetres: 3000, northMetresPerSecond: -50 }), 20).metres).toBe(1000);
  });

  it('goes round a circle with a ship that turns: after a full round it is where it was', () => {
    const turning = ship({ eastMetres: 1000, turnRateRadiansPerSecond: (2 * Math.PI) / 40 });
    // Radius 318 m to the left of north: it comes to within 1000 - 2 * 318 m at half a round.
    const still = ship({ northMetresPerSecond: 0 });
    const met = nearing(still, turning, 40);
    expect(met.inSeconds).toBeGreaterThan(17);
    expect(met.inSeconds).toBeLessThan(24);
    expect(met.metres).toBeGreaterThan(330);
    expect(met.metres).toBeLessThan(400);
  });
});
