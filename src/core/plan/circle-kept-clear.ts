import type { JoinUp } from './plan.ts';

/** A round on a waiting circle may be this much wider than planned, so that whole rounds come out even... */
export const WIDEST_ROUND = 1.2;
/** ...or tighter. */
export const TIGHTEST_ROUND = 0.85;

/** How far off its circle a ship may fly, in its radius. */
const OFF_CIRCLE_RADII = 0.15;

/**
 * How far from a waiting circle's centre everybody else stays at all times: 292 m and 300 m give 694 m.
 *
 * @param clearMetres what must lie between two ships
 */
export function circleKeptClearMetres({ holdRadiusMetres }: Pick<JoinUp, 'holdRadiusMetres'>, clearMetres: number): number {
  return clearMetres + (WIDEST_ROUND + OFF_CIRCLE_RADII) * holdRadiusMetres;
}
