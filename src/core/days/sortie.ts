import { type UnitText, unitText } from '../text/unit-text.ts';
import { kilogramsFromPounds } from '../units/quantity.ts';

/** One word of a sortie, as its plan has it for one ship. */
export interface SortieStop {
  readonly name: string;
  /** When its first smoke must come on. */
  readonly firstSmokeMilliseconds: number;
  readonly writingSeconds: number;
  /** Smoke oil of each letter in the order in which they are read. */
  readonly oilPoundsByLetter: readonly number[];
  readonly layerFeet: number;
  /** From the stop before it, or from the field where it is the first or comes after a refill. */
  readonly transitSeconds: number;
  /** From the field, for a refill before this stop; and back to it from the stop before. */
  readonly fromFieldSeconds: number;
  /** Land, fill up, and take off again before this one. */
  readonly refillBefore: boolean;
}

/** The ship of a sortie. What is null nobody has said. */
export interface SortieShip {
  readonly oilPounds: number;
  readonly fuelGallons: number;
  readonly fuelGallonsPerHour: number;
  /** Nothing is planned with less: bingo fuel, or the reserve. */
  readonly leastFuelGallons: number;
  readonly climbFeetPerMinute: number | null;
  readonly fieldElevationFeet: number;
  readonly turnRoundSeconds: number;
}

/** How one stop comes out. */
export interface SortieStep {
  readonly name: string;
  readonly oilAfterPounds: number;
  readonly fuelAfterGallons: number;
  /** Behind the time of its first smoke; early negative. */
  readonly lateSeconds: number;
  readonly climbSeconds: number;
}

export interface SortieResult {
  readonly steps: readonly SortieStep[];
  /** Back on the ground. */
  readonly fuelAtEndGallons: number;
  readonly takeOffMilliseconds: number;
  readonly fits: boolean;
  /** What does not fit, in words. */
  readonly faults: readonly string[];
}

/** A ship that is later than this for a first smoke misses its read time. */
const LATE_SECONDS = 60;

/**
 * Flies a chain of words on paper: climbs, transits, refills, oil and fuel after each, and how late each first smoke would
 * be. Take-off is in time for the first. Descents cost no fuel here; a climb that nobody has said takes none and is named.
 */
export function flySortie(stops: readonly SortieStop[], ship: SortieShip, { mass, volume }: UnitText = unitText()): SortieResult {
  const steps: SortieStep[] = [];
  const faults: string[] = [];
  const burn = ship.fuelGallonsPerHour / 3600;
  const climbTo = (fromFeet: number, toFeet: number): number =>
    ship.climbFeetPerMinute === null || toFeet <= fromFeet ? 0 : ((toFeet - fromFeet) / ship.climbFeetPerMinute) * 60;
  const [first] = stops;
  const firstLeadSeconds = first === undefined ? 0 : climbTo(ship.fieldElevationFeet, first.layerFeet) + first.transitSeconds;
  const takeOffMilliseconds = (first?.firstSmokeMilliseconds ?? 0) - firstLeadSeconds * 1000;
  let clockMilliseconds = takeOffMilliseconds;
  let oil = ship.oilPounds;
  let fuel = ship.fuelGallons;
  let heightFeet = ship.fieldElevationFeet;
  const fly = (seconds: number): void => {
    fuel -= seconds * burn;
    clockMilliseconds += seconds * 1000;
  };
  if (ship.climbFeetPerMinute === null && stops.length > 0) faults.push('climb rate not entered: climbs are counted as nothing');
  for (const [index, stop] of stops.entries()) {
    if (stop.refillBefore && index > 0) {
      fly(stops[index - 1]?.fromFieldSeconds ?? 0);
      clockMilliseconds += ship.turnRoundSeconds * 1000;
      oil = ship.oilPounds;
      fuel = ship.fuelGallons;
      heightFeet = ship.fieldElevationFeet;
    }
    const climbSeconds = climbTo(heightFeet, stop.layerFeet);
    fly(climbSeconds + (stop.refillBefore && index > 0 ? stop.fromFieldSeconds : stop.transitSeconds));
    const lateSeconds = (clockMilliseconds - stop.firstSmokeMilliseconds) / 1000;
    // Early, the ship waits and burns.
    if (lateSeconds < 0) fly(-lateSeconds);
    fly(stop.writingSeconds);
    oil -= stop.oilPoundsByLetter.reduce((sum, pounds) => sum + pounds, 0);
    heightFeet = stop.layerFeet;
    steps.push({ name: stop.name, oilAfterPounds: oil, fuelAfterGallons: fuel, lateSeconds, climbSeconds });
    if (oil < 0) faults.push(`${stop.name}: ${mass.text(mass.rounded(kilogramsFromPounds(-oil), 1, 'up'))} of smoke oil short`);
    if (fuel < ship.leastFuelGallons) faults.push(`${stop.name}: ${volume.own(ship.leastFuelGallons - fuel, 1)} under the least fuel`);
    if (lateSeconds > LATE_SECONDS) faults.push(`${stop.name}: first smoke ${Math.ceil(lateSeconds / 60)} min late`);
  }
  fly(stops.at(-1)?.fromFieldSeconds ?? 0);
  if (stops.length > 0 && fuel < ship.leastFuelGallons) faults.push(`home with ${volume.own(ship.leastFuelGallons - fuel, 1)} under the least fuel`);
  const grave = faults.filter((fault) => !fault.startsWith('climb rate'));
  return { steps, fuelAtEndGallons: fuel, takeOffMilliseconds, fits: grave.length === 0, faults };
}

/** The least change with which a sortie fits. */
export interface SortieChange {
  readonly kind: 'order' | 'refill' | 'smaller' | 'fewer' | 'ship';
  readonly words: string;
  /** The chain as it would be flown; null for another ship. */
  readonly stops: readonly SortieStop[] | null;
}

/** Letters made smaller than this are another word. */
const SMALLEST_SHARE = 0.7;
const SHARE_STEP = 0.02;

/**
 * What would make a sortie fit, least first: another order, one refill, smaller letters (smoke and time go with their
 * height), fewer letters of the last word, a second ship. Empty where it fits or where none of them is enough.
 */
export function sortieChanges(stops: readonly SortieStop[], ship: SortieShip): SortieChange[] {
  if (flySortie(stops, ship).fits) return [];
  const fits = (changed: readonly SortieStop[], flown: SortieShip = ship): boolean => flySortie(changed, flown).fits;
  const changes: SortieChange[] = [];
  // Transits are those of the given order, so only an order by time is asked, which keeps them honest.
  const byTime = stops.toSorted((one, other) => one.firstSmokeMilliseconds - other.firstSmokeMilliseconds);
  if (byTime.some((stop, index) => stop !== stops[index]) && fits(byTime))
    changes.push({ kind: 'order', words: `another order: ${byTime.map(({ name }) => name).join(', ')}`, stops: byTime });
  for (let index = stops.length - 1; index > 0; index -= 1) {
    const refilled = stops.map((stop, at) => (at === index ? { ...stop, refillBefore: true } : stop));
    if (stops[index]?.refillBefore !== true && fits(refilled)) {
      changes.push({ kind: 'refill', words: `a refill before ${stops[index]?.name ?? ''}`, stops: refilled });
      break;
    }
  }
  for (let share = 1 - SHARE_STEP; share >= SMALLEST_SHARE - 1e-9; share -= SHARE_STEP) {
    const smaller = stops.map((stop) => ({
      ...stop,
      writingSeconds: stop.writingSeconds * share,
      oilPoundsByLetter: stop.oilPoundsByLetter.map((pounds) => pounds * share),
    }));
    if (fits(smaller)) {
      changes.push({ kind: 'smaller', words: `letters ${Math.round((1 - share) * 100)} % smaller in every word`, stops: smaller });
      break;
    }
  }
  const last = stops.at(-1);
  for (let dropped = 1; last !== undefined && dropped < last.oilPoundsByLetter.length; dropped += 1) {
    const left = last.oilPoundsByLetter.slice(0, -dropped);
    const shorter = [
      ...stops.slice(0, -1),
      { ...last, oilPoundsByLetter: left, writingSeconds: (last.writingSeconds * left.length) / last.oilPoundsByLetter.length },
    ];
    if (fits(shorter)) {
      changes.push({ kind: 'fewer', words: `${dropped} ${dropped === 1 ? 'letter' : 'letters'} fewer in ${last.name}`, stops: shorter });
      break;
    }
  }
  const halved = stops.map((stop) => ({
    ...stop,
    writingSeconds: stop.writingSeconds / 2,
    oilPoundsByLetter: stop.oilPoundsByLetter.map((pounds) => pounds / 2),
  }));
  if (fits(halved)) changes.push({ kind: 'ship', words: 'a second ship that writes half of every word', stops: null });
  return changes;
}
