import { expect, it } from 'vitest';
import { sameShipWords } from '../../../src/app/link/same-ship.ts';
import type { ShipSeen } from '../../../src/link/ship-seen.ts';

const now = { wallMilliseconds: 100_000, monotonicMilliseconds: 100_000 };
const ago = (seconds: number) => ({
  wallMilliseconds: now.wallMilliseconds - seconds * 1000,
  monotonicMilliseconds: now.monotonicMilliseconds - seconds * 1000,
});
const ship = (device: string, part: Partial<ShipSeen>): ShipSeen => ({ device, shipIndex: 0, presence: 'up', ended: false, last: null, ...part }) as ShipSeen;

it('says each other device that flies as the same ship, on both, while it is there', () => {
  const lead = ship('lead', {});
  const two = ship('two', {});
  // Each device knows all others and not itself.
  expect(sameShipWords([two], 0, null, now)).toEqual(['TWO FLIES AS THE SAME SHIP']);
  expect(sameShipWords([lead], 0, null, now)).toEqual(['LEAD FLIES AS THE SAME SHIP']);
  // The ground knows both.
  expect(sameShipWords([lead, two], 0, 'lead', now)).toHaveLength(1);
  expect(sameShipWords([lead, ship('two', { shipIndex: 1 })], 0, 'lead', now)).toEqual([]);
});

it('does not say one that has ended, or that was not heard for a minute', () => {
  expect(sameShipWords([ship('two', { ended: true }), ship('three', { presence: 'ended' })], 0, null, now)).toEqual([]);
  const heard = (seconds: number, retained: boolean): ShipSeen =>
    ship('two', { presence: 'lost', last: { at: ago(seconds), retained } as NonNullable<ShipSeen['last']> });
  expect(sameShipWords([heard(10, false)], 0, null, now)).toHaveLength(1);
  expect(sameShipWords([heard(61, false)], 0, null, now)).toEqual([]);
  expect(sameShipWords([heard(10, true)], 0, null, now)).toEqual([]);
});
