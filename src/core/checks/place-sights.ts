import { jobText } from '../job/job-text.ts';
import { sunAt } from '../earth/sun.ts';
import { crowdEyes, eyeFromMiddle } from '../job/crowd-place.ts';
import type { PlannedJob } from '../plan/planned-job.ts';
import { READING_LIMITS } from '../sky/reading-window.ts';
import type { Reading } from '../sky/reading-of.ts';
import { lookToAir } from '../sky/look-plan.ts';
import { type SeenPoint, shownTurnRadians } from '../sky/perspective.ts';
import { shownDepthRadians } from '../sky/shown-size.ts';
import { outlineSeparation, textOutline } from '../sky/text-outline.ts';

/** How one viewing place sees the word at the read time, and until when it can. */
export interface PlaceSight {
  readonly name: string;
  readonly share: number;
  readonly look: SeenPoint;
  /** How far the word's line leans in the eye, positive when it rises to the right. */
  readonly turnRadians: number;
  readonly letterDepthRadians: number;
  /** Between the sun and the nearest of the word; null while the sun is down. */
  readonly sunRadians: number | null;
  /** Reads from here: the whole crowd's window cut where from here the letters show too small. Seconds since the datum. */
  readonly untilSeconds: number;
  readonly endedBy: 'as the whole' | 'too small from here' | 'never large enough';
}

const STEP_SECONDS = 15;

/** Every viewing place, the site first; a single one too. */
export function placeSights({ job, plan, air, readSeconds }: PlannedJob, { window }: Pick<Reading, 'window'>): PlaceSight[] {
  const sun = sunAt(air.site, Date.parse(job.readTime));
  const wish = {
    facingRadians: plan.frame.facingRadians,
    viewElevationRadians: jobText(job).viewElevationRadians,
    layerAboveSiteMetres: air.layerAboveSiteMetres,
  };
  return crowdEyes(job).map((place) => {
    const eye = eyeFromMiddle(place, air.site);
    const lookAt = (atSeconds: number): SeenPoint =>
      lookToAir(plan.frame.middle, atSeconds, { eye, wind: air.wind, layerAboveSiteMetres: air.layerAboveSiteMetres });
    const depthAt = (atSeconds: number): number => {
      const { elevationRadians } = lookAt(atSeconds);
      return elevationRadians > 0 ? shownDepthRadians(plan.letterHeightMetres, air.layerAboveSiteMetres - eye.upMetres, elevationRadians) : 0;
    };
    const look = lookAt(readSeconds);
    const last = window.until.likelySeconds;
    let untilSeconds = readSeconds;
    while (untilSeconds < last && depthAt(untilSeconds) >= READING_LIMITS.shownDepthRadians) untilSeconds += STEP_SECONDS;
    const small = depthAt(Math.min(untilSeconds, last)) < READING_LIMITS.shownDepthRadians;
    return {
      name: place.name,
      share: place.share,
      look,
      turnRadians: shownTurnRadians(look.azimuthRadians, plan.frame.facingRadians, look.elevationRadians),
      letterDepthRadians: depthAt(readSeconds),
      sunRadians: sun.elevationRadians <= 0 ? null : outlineSeparation(sun, textOutline(wish, air.wind, 0, plan.textWidthMetres, plan.letterHeightMetres, eye)),
      untilSeconds: Math.min(untilSeconds, last),
      endedBy: !small ? 'as the whole' : untilSeconds === readSeconds ? 'never large enough' : 'too small from here',
    };
  });
}

/** A figure of all places, each by its share: `weighed(sights, ({ letterDepthRadians }) => letterDepthRadians)`. */
export function weighed(sights: readonly PlaceSight[], figure: (sight: PlaceSight) => number): number {
  return sights.reduce((sum, sight) => sum + sight.share * figure(sight), 0);
}
