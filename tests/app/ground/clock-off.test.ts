import { describe, expect, it } from 'vitest';
import { clockOffFromShips } from '../../../src/app/ground/clock-off.ts';
import type { SenderClock } from '../../../src/link/sender-clock.ts';
import { newShip, type ShipSeen } from '../../../src/link/ship-seen.ts';

const ship = (name: string, clock: SenderClock | null): ShipSeen => ({ ...newShip(name), clock });
const answered = (seconds: number): SenderClock => ({
  leastDelayMilliseconds: seconds * 1000,
  answered: { offsetMilliseconds: seconds * 1000, errorMilliseconds: 50 },
});
const agreeing: SenderClock = { leastDelayMilliseconds: 120, answered: null };
const doubted: SenderClock = { leastDelayMilliseconds: 300_000, answered: null };

describe('the clock of this device', () => {
  it('is named as the wrong one where two ships agree', () => {
    expect(clockOffFromShips([ship('lead', answered(300)), ship('two', answered(300.4))])).toEqual({ aheadSeconds: 300, ships: ['lead', 'two'], isOurs: true });
    expect(clockOffFromShips([ship('lead', answered(-75)), ship('two', answered(-75))])?.aheadSeconds).toBe(-75);
  });

  it('or the ship’s is wrong, where there is but one, or ships differ', () => {
    expect(clockOffFromShips([ship('lead', answered(300))])).toEqual({ aheadSeconds: 300, ships: ['lead'], isOurs: false });
    expect(clockOffFromShips([ship('lead', answered(300)), ship('two', answered(-40))])).toEqual({ aheadSeconds: 300, ships: ['lead'], isOurs: false });
  });

  it('is right as long as one ship agrees with it, and nothing is said before an answer', () => {
    expect(clockOffFromShips([ship('lead', answered(300)), ship('two', agreeing)])).toBeNull();
    expect(clockOffFromShips([ship('lead', doubted)])).toBeNull();
    expect(clockOffFromShips([ship('lead', null)])).toBeNull();
    expect(clockOffFromShips([ship('lead', answered(4.9))])).toBeNull();
    expect(clockOffFromShips([ship('lead', answered(300)), ship('two', answered(3))])).toBeNull();
    expect(clockOffFromShips([])).toBeNull();
  });

  it('is not judged by a ship that has ended', () => {
    expect(clockOffFromShips([{ ...ship('lead', answered(300)), ended: true }])).toBeNull();
  });
});
