import { type Plan, wholeFlight } from './plan.ts';
import { shipMotion } from './ship-motion.ts';
import type { AirPoint } from '../paths/air-path.ts';

/** A ship that flies through fresh smoke. */
export interface SmokeCrossing {
  readonly shipIndex: number;
  readonly smokeOfShipIndex: number;
  readonly atSeconds: number;
  readonly ageSeconds: number;
  readonly place: AirPoint;
}

/** Smoke this old no longer hides what is behind it. */
export const FRESH_SMOKE_SECONDS = 60;
/** A ship within this of the middle of a trail, across and in height, is in it. */
const TRAIL_METRES = 25;
const STEP_SECONDS = 0.25;
/** A ship is not warned of the smoke it is laying: only of its own trail met again. */
const OWN_SECONDS = 8;
/** Meetings this close in time are one crossing. */
const ONE_CROSSING_SECONDS = 5;

/**
 * Where a ship passes through smoke younger than a minute, its own or another's, in order of time. Smoke laid at
 * another height step is not in its way.
 */
export function smokeCrossings(plan: Plan): SmokeCrossing[] {
  const motions = plan.ships.map((ship) => shipMotion(wholeFlight(ship), STEP_SECONDS));
  const crossings: SmokeCrossing[] = [];
  motions.forEach((layer, smokeOf) => {
    // Smoke by squares of the sky, so that a place finds the trails near it: the index of each sample with smoke.
    const squares = new Map<string, number[]>();
    const squareOf = (east: number, north: number): string => `${Math.floor(east / 100)},${Math.floor(north / 100)}`;
    layer.smoke.forEach((on, sample) => {
      if (on === 0) return;
      const key = squareOf(layer.eastMetres[sample]!, layer.northMetres[sample]!);
      const known = squares.get(key);
      if (known === undefined) squares.set(key, [sample]);
      else known.push(sample);
    });
    motions.forEach((flyer, ship) => {
      if (Math.abs(plan.ships[ship]!.heightStepMetres - plan.ships[smokeOf]!.heightStepMetres) > TRAIL_METRES) return;
      let lastSeconds = -Infinity;
      for (let sample = 0; sample < flyer.eastMetres.length; sample += 1) {
        const atSeconds = flyer.firstSeconds + sample * STEP_SECONDS;
        const east = flyer.eastMetres[sample]!;
        const north = flyer.northMetres[sample]!;
        let youngest = Infinity;
        for (const aside of [-TRAIL_METRES, TRAIL_METRES]) {
          for (const along of [-TRAIL_METRES, TRAIL_METRES]) {
            for (const laid of squares.get(squareOf(east + aside, north + along)) ?? []) {
              const ageSeconds = atSeconds - (layer.firstSeconds + laid * STEP_SECONDS);
              if (ageSeconds <= (ship === smokeOf ? OWN_SECONDS : 0) || ageSeconds >= FRESH_SMOKE_SECONDS) continue;
              const distance = Math.hypot(layer.eastMetres[laid]! - east, layer.northMetres[laid]! - north);
              if (distance <= TRAIL_METRES) youngest = Math.min(youngest, ageSeconds);
            }
          }
        }
        if (youngest === Infinity) continue;
        if (atSeconds - lastSeconds > ONE_CROSSING_SECONDS) {
          crossings.push({
            shipIndex: plan.ships[ship]!.shipIndex,
            smokeOfShipIndex: plan.ships[smokeOf]!.shipIndex,
            atSeconds,
            ageSeconds: youngest,
            place: { airEastMetres: east, airNorthMetres: north },
          });
        }
        lastSeconds = atSeconds;
      }
    });
  });
  return crossings.sort((one, other) => one.atSeconds - other.atSeconds);
}
