import { deviceInstant, elapsedMilliseconds, type LinkInstant } from '../../link/link-clock.ts';
import type { ShipSeen } from '../../link/ship-seen.ts';

/** A device that was not heard of for so long may have gone without a word. */
const HEARD_SECONDS = 60;

/**
 * Words for each other device that flies as the same ship, as both show them. Which of the two is right no machine can
 * know: two tablets in one aircraft, or two pilots who chose the same ship and would fly the same places at the same time.
 *
 * @param shipIndex the ship that is looked at, and `device` whose device is left out; null for none
 */
export function sameShipWords(ships: readonly ShipSeen[], shipIndex: number, device: string | null, now: LinkInstant = deviceInstant()): string[] {
  return ships
    .filter((ship) => ship.device !== device && ship.shipIndex === shipIndex && isThere(ship, now))
    .map(({ device: other }) => `${other.toUpperCase()} FLIES AS THE SAME SHIP`);
}

function isThere({ presence, ended, last }: ShipSeen, now: LinkInstant): boolean {
  if (ended || presence === 'ended') return false;
  return presence === 'up' || (last !== null && !last.retained && elapsedMilliseconds(last.at, now) / 1000 < HEARD_SECONDS);
}
