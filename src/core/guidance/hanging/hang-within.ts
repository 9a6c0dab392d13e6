import type { WindVector } from '../../earth/wind-vector.ts';
import { siteFromAir } from '../../plan/place.ts';
import { seenFromSite, shownTurnRadians } from '../../sky/perspective.ts';
import { radiansFromDegrees } from '../../units/angle.ts';
import { hangText } from './hang-text.ts';
import type { Hanging, HangingWish } from './hanging.ts';
import { staysWithin } from './hanging-limits.ts';

const STEP_METRES = 250;
const STEPS = 20;
const DIRECTIONS = 24;
/** What a place off the best one costs: a degree of lean as much as one of elevation, and farther than the first is worse than near. */
const PER_KILOMETRE = 0.5;
/** Higher than this the text hangs over the crowd's heads, and lower it is too flat. */
const HIGHEST_RADIANS = radiansFromDegrees(75);
const LOWEST_RADIANS = radiansFromDegrees(15);

/**
 * Hangs the text for a wind inside what was agreed: where the best place is forbidden, at the place that the crowd sees least
 * worse of all that are allowed within 5 km, by lean and elevation. Where none is, the text hangs as briefed and says that.
 */
export function hangWithin(wish: HangingWish, wind: WindVector): Hanging {
  const best = hangText(wish, wind);
  const { limits } = wish;
  if (limits === undefined || staysWithin(limits, wind, best.movedEastMetres, best.movedNorthMetres)) return best;
  let found: Hanging | null = null;
  let least = Infinity;
  for (let step = 1; step <= STEPS; step += 1) {
    for (let turn = 0; turn < DIRECTIONS; turn += 1) {
      const direction = (2 * Math.PI * turn) / DIRECTIONS;
      const moved = {
        movedEastMetres: best.movedEastMetres + step * STEP_METRES * Math.cos(direction),
        movedNorthMetres: best.movedNorthMetres + step * STEP_METRES * Math.sin(direction),
      };
      const cost = costOf(wish, wind, best, moved) + (PER_KILOMETRE * step * STEP_METRES) / 1000;
      if (cost >= least || !staysWithin(limits, wind, moved.movedEastMetres, moved.movedNorthMetres)) continue;
      least = cost;
      const middle = {
        airEastMetres: wish.middle.airEastMetres + moved.movedEastMetres,
        airNorthMetres: wish.middle.airNorthMetres + moved.movedNorthMetres,
      };
      found = { ...best, ...moved, atLastSmoke: siteFromAir(middle, wind, wish.writingSeconds), forbidden: 'aside' };
    }
  }
  return found ?? { ...best, movedEastMetres: 0, movedNorthMetres: 0, atLastSmoke: siteFromAir(wish.middle, wind, wish.writingSeconds), forbidden: 'nowhere' };
}

/** How the text would be seen there in the middle of the reading, in degrees of lean and elevation. */
function costOf(wish: HangingWish, wind: WindVector, { levelAfterSeconds }: Hanging, moved: Pick<Hanging, 'movedEastMetres' | 'movedNorthMetres'>): number {
  const middle = {
    airEastMetres: wish.middle.airEastMetres + moved.movedEastMetres,
    airNorthMetres: wish.middle.airNorthMetres + moved.movedNorthMetres,
  };
  const place = siteFromAir(middle, wind, wish.writingSeconds + levelAfterSeconds);
  const { azimuthRadians, elevationRadians } = seenFromSite(place, wish.layerAboveSiteMetres);
  if (elevationRadians > HIGHEST_RADIANS || elevationRadians < LOWEST_RADIANS) return Infinity;
  const lean = Math.abs(shownTurnRadians(azimuthRadians, wish.facingRadians, elevationRadians));
  return (180 / Math.PI) * (lean + Math.abs(elevationRadians - wish.viewElevationRadians));
}
