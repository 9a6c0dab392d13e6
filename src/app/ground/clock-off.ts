import { AGREE_MILLISECONDS, isClockInDoubt } from '../../link/sender-clock.ts';
import type { ShipSeen } from '../../link/ship-seen.ts';

/** This device's clock against those of the ships it hears. */
export interface ClockOff {
  /** This device's minus theirs: positive when this one is ahead. */
  readonly aheadSeconds: number;
  /** Those it differs from, by name. */
  readonly ships: readonly string[];
  /** Two and more ships agree with each other and not with this device: then it is this one that is wrong. */
  readonly isOurs: boolean;
}

/** Less than this no count is spoilt by. */
const SAID_SECONDS = 5;

/**
 * By how much this device's clock differs from the ships', once they have answered what time it is with them; null
 * while it agrees with one of them within 5 s, or nobody has answered. Of ships that differ among themselves the first
 * is named alone.
 */
export function clockOffFromShips(ships: readonly ShipSeen[]): ClockOff | null {
  const heard = ships.filter((ship) => !ship.ended && ship.clock !== null);
  const answered = heard.flatMap(({ name, clock }) => (clock?.answered == null ? [] : [{ name, milliseconds: clock.answered.offsetMilliseconds }]));
  const off = answered.filter(({ milliseconds }) => Math.abs(milliseconds) >= SAID_SECONDS * 1000);
  const [first] = off;
  const agrees = off.length < answered.length || heard.some(({ clock }) => clock !== null && clock.answered === null && !isClockInDoubt(clock));
  if (first === undefined || agrees) return null;
  const alike = off.filter(({ milliseconds }) => Math.abs(milliseconds - first.milliseconds) <= AGREE_MILLISECONDS);
  const together = alike.length === off.length;
  return { aheadSeconds: first.milliseconds / 1000, ships: together ? alike.map(({ name }) => name) : [first.name], isOurs: together && alike.length >= 2 };
}
