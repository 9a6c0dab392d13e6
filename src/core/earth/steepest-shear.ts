import { HELD_METRES, type ShearVector, type WindProfile } from './wind-profile.ts';

/** What is looked at above and below: about what a pilot's height keeping fills. */
const SIDE_METRES = 150;

/**
 * The steepest change of the wind with height within 150 m of a height: between any two neighbouring rows that reach there. Where the
 * wind is strongest the change below and the change above cancel in their mean (`shearAt`), not in the smoke.
 *
 * Worked: 5 kt at 2,000 m, 45 kt at 3,000 m and 5 kt at 4,000 m, all from the east, change by 40 kt per 1,000 m at 3,000 m.
 *
 * @returns null where there is no telling: one row only, or the height beyond the rows by more than is held
 */
export function steepestShearAt({ rows }: WindProfile, heightMetres: number): ShearVector | null {
  const [lowest, highest] = [rows[0], rows.at(-1)];
  if (lowest === undefined || highest === undefined) return null;
  const inside = Math.min(Math.max(heightMetres, lowest.heightMetres), highest.heightMetres);
  if (Math.abs(heightMetres - inside) > HELD_METRES) return null;
  let steepest: ShearVector | null = null;
  for (const [index, above] of rows.entries()) {
    const below = rows[index - 1];
    if (below === undefined || below.heightMetres >= inside + SIDE_METRES || above.heightMetres <= inside - SIDE_METRES) continue;
    const metres = above.heightMetres - below.heightMetres;
    const shear = {
      eastPerSecond: (above.wind.eastMetresPerSecond - below.wind.eastMetresPerSecond) / metres,
      northPerSecond: (above.wind.northMetresPerSecond - below.wind.northMetresPerSecond) / metres,
    };
    if (steepest === null || sizeOf(shear) > sizeOf(steepest)) steepest = shear;
  }
  return steepest;
}

function sizeOf({ eastPerSecond, northPerSecond }: ShearVector): number {
  return Math.hypot(eastPerSecond, northPerSecond);
}
