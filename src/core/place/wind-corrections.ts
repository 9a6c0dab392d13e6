import type { SitePoint } from '../earth/site-frame.ts';
import { radiansFromDegrees } from '../units/angle.ts';
import { metresPerSecondFromKnots } from '../units/quantity.ts';

/** Where the first smoke moves when the wind found is another than the one planned with. */
export interface WindCorrection {
  /** What must be added to the planned wind: from where, true, and how strong. */
  readonly moreFromDegrees: number;
  readonly moreKnots: number;
  /** The first smoke's new place, in the site frame. */
  readonly firstSmoke: SitePoint;
  readonly movedMetres: number;
}

export const CORRECTED_KNOTS = [5, 10, 15] as const;
const FROM_DEGREES = [0, 45, 90, 135, 180, 225, 270, 315] as const;

/**
 * How far upwind the word is begun for 5, 10 and 15 kt more wind from each of eight directions, so that at the read time
 * it hangs as planned: `place = planned - more * read seconds`. Headings and seconds of the strokes stay as they are,
 * since they are flown in the air. 10 kt more from the north for 600 s: 3,087 m further north.
 */
export function windCorrections(firstSmoke: SitePoint, readSeconds: number): WindCorrection[] {
  return FROM_DEGREES.flatMap((moreFromDegrees) =>
    CORRECTED_KNOTS.map((moreKnots) => {
      const movedMetres = metresPerSecondFromKnots(moreKnots) * readSeconds;
      const from = radiansFromDegrees(moreFromDegrees);
      return {
        moreFromDegrees,
        moreKnots,
        movedMetres,
        firstSmoke: { eastMetres: firstSmoke.eastMetres + movedMetres * Math.sin(from), northMetres: firstSmoke.northMetres + movedMetres * Math.cos(from) },
      };
    }),
  );
}
