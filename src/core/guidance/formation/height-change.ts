/** Climbs are reckoned at 600 ft a minute, a loaded aircraft's; common practice, no source. */
const CLIMB_METRES_PER_SECOND = 3.05;
/** 1,000 ft a minute down; common practice, no source. */
const DESCENT_METRES_PER_SECOND = 5.08;
const BEGUN_SECONDS = 8;

/** How long a pilot takes from one height to another, the call and the hand included: 500 ft up 58 s, down 38 s. */
export function heightChangeSeconds(fromMetres: number, toMetres: number): number {
  const up = toMetres - fromMetres;
  return BEGUN_SECONDS + (up > 0 ? up / CLIMB_METRES_PER_SECOND : -up / DESCENT_METRES_PER_SECOND);
}
