import type { Glyph } from './glyph.ts';

/** What keeps a glyph from being written smaller. */
export interface SmallestHeight {
  /** 0 when the glyph has no curve: then only the pilot's patience limits it. */
  readonly heightMetres: number;
  /** The stroke with the tightest turn; null without curves. */
  readonly strokeIndex: number | null;
  /** That turn's radius in letter heights; null without curves. */
  readonly radiusHeights: number | null;
}

/**
 * The smallest height at which a ship that turns on `turnRadiusMetres` can write the glyph, and which stroke sets
 * it. A glyph whose tightest arc has radius 0.25 heights needs 1,172 m for a radius of 293 m.
 *
 * @param turnRadiusMetres the writing turn radius, above 0; throws RangeError otherwise
 */
export function smallestHeight(glyph: Glyph, turnRadiusMetres: number): SmallestHeight {
  if (!(turnRadiusMetres > 0 && Number.isFinite(turnRadiusMetres))) throw new RangeError(`turnRadiusMetres ${turnRadiusMetres}`);
  let tightestPerHeight = 0;
  let strokeIndex: number | null = null;
  glyph.strokes.forEach((stroke, index) => {
    for (const { curvaturePerHeight } of stroke.segments) {
      if (Math.abs(curvaturePerHeight) <= tightestPerHeight) continue;
      tightestPerHeight = Math.abs(curvaturePerHeight);
      strokeIndex = index;
    }
  });
  return {
    heightMetres: turnRadiusMetres * tightestPerHeight,
    strokeIndex,
    radiusHeights: tightestPerHeight === 0 ? null : 1 / tightestPerHeight,
  };
}

/**
 * The height alone; see {@link smallestHeight}.
 *
 * @oracle
 */
export function smallestHeightMetres(glyph: Glyph, turnRadiusMetres: number): number {
  return smallestHeight(glyph, turnRadiusMetres).heightMetres;
}
