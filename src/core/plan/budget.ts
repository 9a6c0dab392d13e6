import type { Plan, ShipPlan } from './plan.ts';

/** What a ship carries and burns. */
export interface ShipTanks {
  readonly smokeOilKilograms: number;
  readonly fuelLitres: number;
  readonly fuelLitresPerSecond: number;
  /** What must remain after landing, at the same flow. */
  readonly fuelReserveSeconds: number;
  /** Flying before the first smoke and after the last: climb, transit, join-up, return; null when nobody has said. */
  readonly otherFlyingSeconds: number | null;
}

/** What one ship needs against what it has. */
export interface ShipBudget {
  readonly shipIndex: number;
  readonly oilNeededKilograms: number;
  /** Negative when the tank runs dry before the last stroke. */
  readonly oilLeftKilograms: number;
  /** Seconds since the datum at which the oil is gone; null when it lasts. */
  readonly oilGoneSeconds: number | null;
  readonly fuelNeededLitres: number;
  /** After all flying, before the reserve is taken off. */
  readonly fuelLeftLitres: number;
  readonly fuelReserveLitres: number;
  readonly oilSuffices: boolean;
  readonly fuelSuffices: boolean;
  /** False when nobody has said how long climb, transit and return take: the fuel is for the writing alone. */
  readonly wholeFlightCounted: boolean;
  readonly toggles: number;
}

function oilGoneSeconds(ship: ShipPlan, smokeOilKilograms: number): number | null {
  if (ship.oilKilograms <= smokeOilKilograms) return null;
  let leftSeconds = (ship.smokeSeconds * smokeOilKilograms) / ship.oilKilograms;
  for (const leg of ship.legs) {
    if (leg.kind !== 'smoke') continue;
    const lastsSeconds = leg.endSeconds - leg.startSeconds;
    if (lastsSeconds >= leftSeconds) return leg.startSeconds + leftSeconds;
    leftSeconds -= lastsSeconds;
  }
  return null;
}

function checked(name: string, value: number): number {
  if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`${name} must be 0 or more and finite: ${value}`);
  return value;
}

/**
 * Oil and fuel of one ship against its tanks. An empty tank is an answer, not an error: nothing suffices.
 *
 * @throws RangeError for a negative amount or one that is not finite
 */
export function shipBudget(ship: ShipPlan, tanks: ShipTanks): ShipBudget {
  const smokeOilKilograms = checked('smokeOilKilograms', tanks.smokeOilKilograms);
  const flow = checked('fuelLitresPerSecond', tanks.fuelLitresPerSecond);
  const writingSeconds = (ship.legs.at(-1)?.endSeconds ?? 0) - (ship.legs[0]?.startSeconds ?? 0);
  const fuelNeededLitres = flow * (writingSeconds + checked('otherFlyingSeconds', tanks.otherFlyingSeconds ?? 0));
  const fuelReserveLitres = flow * checked('fuelReserveSeconds', tanks.fuelReserveSeconds);
  const fuelLeftLitres = checked('fuelLitres', tanks.fuelLitres) - fuelNeededLitres;
  return {
    shipIndex: ship.shipIndex,
    oilNeededKilograms: ship.oilKilograms,
    oilLeftKilograms: smokeOilKilograms - ship.oilKilograms,
    oilGoneSeconds: oilGoneSeconds(ship, smokeOilKilograms),
    fuelNeededLitres,
    fuelLeftLitres,
    fuelReserveLitres,
    oilSuffices: smokeOilKilograms >= ship.oilKilograms,
    fuelSuffices: fuelLeftLitres >= fuelReserveLitres,
    wholeFlightCounted: tanks.otherFlyingSeconds !== null,
    toggles: ship.toggles,
  };
}

/** When a letter is written and how old its smoke is when the last stroke of the text is done. */
export interface LetterTimes {
  readonly letterIndex: number;
  readonly character: string;
  readonly begunSeconds: number;
  readonly completedSeconds: number;
  /** Age of the letter's first smoke at the plan's end. */
  readonly oldestSmokeSeconds: number;
  /** Age of the letter's last smoke at the plan's end. */
  readonly newestSmokeSeconds: number;
}

/** The times of every letter, in reading order. */
export function letterTimes(plan: Plan): LetterTimes[] {
  const times = new Map<number, { character: string; begunSeconds: number; completedSeconds: number }>();
  let endSeconds = -Infinity;
  for (const { legs } of plan.ships) {
    for (const leg of legs) {
      if (leg.kind !== 'smoke') continue;
      const known = times.get(leg.letterIndex);
      endSeconds = Math.max(endSeconds, leg.endSeconds);
      times.set(leg.letterIndex, {
        character: leg.character,
        begunSeconds: Math.min(known?.begunSeconds ?? Infinity, leg.startSeconds),
        completedSeconds: Math.max(known?.completedSeconds ?? -Infinity, leg.endSeconds),
      });
    }
  }
  return [...times]
    .sort(([first], [second]) => first - second)
    .map(([letterIndex, { character, begunSeconds, completedSeconds }]) => ({
      letterIndex,
      character,
      begunSeconds,
      completedSeconds,
      oldestSmokeSeconds: endSeconds - begunSeconds,
      newestSmokeSeconds: endSeconds - completedSeconds,
    }));
}
