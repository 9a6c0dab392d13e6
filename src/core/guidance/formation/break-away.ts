import { advanceAirPose, type AirPose } from '../../paths/air-path.ts';
import { turnRadiusMetres } from '../../paths/turn.ts';
import type { BreakAway } from './formation-progress.ts';
import type { OtherShip } from './formation-setup.ts';
import { plannedPlace } from '../hanging/planned-place.ts';

/** By then a ship that goes down is well below the layer... */
const BREAK_DOWN_SECONDS = 16;
/** ...and one that goes up well above it. */
const BREAK_UP_SECONDS = 30;
const LOOK_EVERY_SECONDS = 2;
/** The others are looked for where they are when early, on time and late. */
const LATENESS_LOOKED_AT_SECONDS = [-4, -1, 2, 5];
/** Farther away than this is as good as any. */
const FAR_METRES = 1200;

/**
 * Straight on, left or right: which of the three leaves most room to where the plan has the others over the time it takes to
 * leave the layer: 16 s down, 30 s up.
 * Equal room, and all above 1,200 m is equal, keeps straight on.
 *
 * @param sinceDatumSeconds now
 */
export function breakAwayFrom(
  pose: AirPose,
  others: readonly OtherShip[],
  sinceDatumSeconds: number,
  nowSeconds: number,
  limits: { readonly trueAirspeedMetresPerSecond: number; readonly turningBankRadians: number; readonly goesUp: boolean },
): BreakAway {
  const lastingSeconds = limits.goesUp ? BREAK_UP_SECONDS : BREAK_DOWN_SECONDS;
  const speed = limits.trueAirspeedMetresPerSecond;
  const radius = turnRadiusMetres(speed, limits.turningBankRadians);
  let best: BreakAway['sense'] = 'either';
  let bestMetres = -Infinity;
  for (const sense of ['either', 'left', 'right'] as const) {
    const curvature = sense === 'either' ? 0 : (sense === 'left' ? 1 : -1) / radius;
    let least = FAR_METRES;
    for (let after = 0; after <= lastingSeconds; after += LOOK_EVERY_SECONDS) {
      const own = advanceAirPose(pose, after * speed, curvature);
      for (const other of others) {
        for (const late of LATENESS_LOOKED_AT_SECONDS) {
          const place = plannedPlace(other, sinceDatumSeconds + after - late);
          if (place !== null) least = Math.min(least, Math.hypot(place.airEastMetres - own.airEastMetres, place.airNorthMetres - own.airNorthMetres));
        }
      }
    }
    if (least > bestMetres + 1) {
      bestMetres = least;
      best = sense;
    }
  }
  return { sense: best, directionRadians: pose.directionRadians, untilSeconds: nowSeconds + lastingSeconds };
}
