import { type AirPath, airPathLengthMetres, type AirPoint, airPoseAt } from '../../paths/air-path.ts';

/** Points of a path, its ends among them, at most so far apart. */
export function pathPoints(path: AirPath, everyMetres: number): AirPoint[] {
  const lengthMetres = airPathLengthMetres(path);
  const count = Math.max(1, Math.ceil(lengthMetres / everyMetres));
  return Array.from({ length: count + 1 }, (_, index) => airPoseAt(path, (lengthMetres * index) / count));
}

/** From a point to the nearest of some; Infinity where there are none. */
export function distanceToPointsMetres({ airEastMetres, airNorthMetres }: AirPoint, points: readonly AirPoint[]): number {
  let least = Infinity;
  for (const point of points) {
    const east = point.airEastMetres - airEastMetres;
    const north = point.airNorthMetres - airNorthMetres;
    least = Math.min(least, east * east + north * north);
  }
  return Math.sqrt(least);
}
