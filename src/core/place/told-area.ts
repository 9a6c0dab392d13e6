import type { SitePoint } from '../earth/site-frame.ts';
import type { WindVector } from '../earth/wind-vector.ts';
import { airPathLengthMetres, airPoseAt } from '../paths/air-path.ts';
import { siteFromAir } from '../plan/place.ts';
import type { Plan } from '../plan/plan.ts';
import { metresPerSecondFromKnots } from '../units/quantity.ts';
import { convexHull, widenedHull } from './area.ts';

/** For which error of the forecast the told area has room: more is as rare as one day in ten, by the 13 kt that the estimator starts from. */
export const TOLD_FOR_KNOTS = 20;
const DIRECTIONS = 12;
const STEP_METRES = 150;

/** How far a text is moved in the air for a wind, east and north. */
export type MovedFor = (wind: WindVector) => { readonly movedEastMetres: number; readonly movedNorthMetres: number };

/**
 * The area that ships need, over the ground, when the text is hung by the wind that is found: the flown ways in the forecast's
 * wind and in winds up to {@link TOLD_FOR_KNOTS} off it to every side, each with the text where it would then hang. Convex,
 * anticlockwise, with a margin on all sides.
 */
export function toldArea(plan: Plan, forecast: WindVector, movedFor: MovedFor, marginMetres: number): SitePoint[] {
  const error = metresPerSecondFromKnots(TOLD_FOR_KNOTS);
  const winds = [
    forecast,
    ...Array.from({ length: DIRECTIONS }, (_, index) => ({
      eastMetresPerSecond: forecast.eastMetresPerSecond + error * Math.cos((2 * Math.PI * index) / DIRECTIONS),
      northMetresPerSecond: forecast.northMetresPerSecond + error * Math.sin((2 * Math.PI * index) / DIRECTIONS),
    })),
  ];
  const flown = plan.ships.flatMap(({ legs }) =>
    legs.flatMap((leg) => {
      const lengthMetres = airPathLengthMetres(leg.path);
      const count = Math.max(1, Math.ceil(lengthMetres / STEP_METRES));
      return Array.from({ length: count + 1 }, (_, index) => ({
        pose: airPoseAt(leg.path, (lengthMetres * index) / count),
        atSeconds: leg.startSeconds + ((leg.endSeconds - leg.startSeconds) * index) / count,
      }));
    }),
  );
  const points = winds.flatMap((wind, index) => {
    const moved = index === 0 ? { movedEastMetres: 0, movedNorthMetres: 0 } : movedFor(wind);
    return flown.map(({ pose, atSeconds }) =>
      siteFromAir({ airEastMetres: pose.airEastMetres + moved.movedEastMetres, airNorthMetres: pose.airNorthMetres + moved.movedNorthMetres }, wind, atSeconds),
    );
  });
  return widenedHull(convexHull(points), marginMetres);
}
