import type { WindVector } from '../../earth/wind-vector.ts';
import { placeTextMiddle, siteFromAir } from '../../plan/place.ts';
import { radiansFromDegrees } from '../../units/angle.ts';
import type { Hanging, HangingWish } from './hanging.ts';

/**
 * At the last smoke the text may stand aside of its place by this share of its distance: at 35 degrees of elevation it
 * then leans by 3 degrees, and as much to the other side as long after it was level. More would keep it near level for
 * longer, but every minute more for which the wind is foretold moves the text from its place.
 */
const ASIDE_SHARE = 0.1;
/**
 * The text is hung so much lower than wished: carried nearer than it should be it leans and climbs more than it does the
 * other way when carried as far off. At the desk, 100 flights 10 kt off: 88 instead of 80 lean by at most 6 degrees.
 */
const LOWER_RADIANS = radiansFromDegrees(1.5);

/**
 * Hangs the text for a wind: its middle at the wanted elevation, less 1.5 degrees, in front of the crowd, and level, in the middle of the
 * reading, or as far into it as the drift leaves the text standing well at the last smoke.
 *
 * Worked: 2,700 m above the crowd, seen at 45 degrees to the north, written in 600 s and read for 600 s in a wind of
 * 4 m/s towards the east: level 67.5 s after the last smoke, which is laid with the text 270 m west of its place.
 */
export function hangText(wish: HangingWish, wind: WindVector): Hanging {
  const levelAfterSeconds = levelAfter(wish, wind);
  const lower = { ...wish, viewElevationRadians: Math.max(wish.viewElevationRadians / 2, wish.viewElevationRadians - LOWER_RADIANS) };
  const middle = placeTextMiddle(lower, wind, wish.writingSeconds + levelAfterSeconds);
  return {
    kind: 'found-wind',
    wind,
    movedEastMetres: middle.airEastMetres - wish.middle.airEastMetres,
    movedNorthMetres: middle.airNorthMetres - wish.middle.airNorthMetres,
    atLastSmoke: siteFromAir(middle, wind, wish.writingSeconds),
    levelAfterSeconds,
  };
}

/** As it was planned, at its place and level at the last smoke in the wind that was forecast. */
export function asBriefed(wish: HangingWish, forecast: WindVector): Hanging {
  return {
    kind: 'as-briefed',
    wind: forecast,
    movedEastMetres: 0,
    movedNorthMetres: 0,
    atLastSmoke: siteFromAir(wish.middle, forecast, wish.writingSeconds),
    levelAfterSeconds: 0,
  };
}

function levelAfter({ layerAboveSiteMetres, viewElevationRadians, readingSeconds }: HangingWish, wind: WindVector): number {
  const distanceMetres = layerAboveSiteMetres / Math.tan(viewElevationRadians);
  const speed = Math.hypot(wind.eastMetresPerSecond, wind.northMetresPerSecond);
  return speed > 0 ? Math.min(Math.max(0, readingSeconds / 2), (ASIDE_SHARE * distanceMetres) / speed) : Math.max(0, readingSeconds / 2);
}
