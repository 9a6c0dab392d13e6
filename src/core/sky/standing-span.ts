import type { SitePoint } from '../earth/site-frame.ts';
import { seenFromSite, shownTurnRadians } from './perspective.ts';

/** While a text stands so that the crowd reads it, in the seconds of the caller's clock. */
export interface StandingSpan {
  readonly fromSeconds: number;
  readonly untilSeconds: number;
  /** What ends it: the drift has turned its line from level, or carried it down to the horizon; null when nothing does. */
  readonly endedBy: 'leaning' | 'low' | null;
}

/** Whose text, and how the crowd faces it. */
export interface StandingWish {
  readonly facingRadians: number;
  readonly layerAboveSiteMetres: number;
}

/** Leaning by more than this or seen lower a word is not read; a text-reading engine on our letters. A person bends further. */
export const STANDING_LIMITS = { leanRadians: (15 * Math.PI) / 180, lowestRadians: (12 * Math.PI) / 180 };

const STEP_SECONDS = 15;
const CLOSE_SECONDS = 0.1;

/**
 * The first span of time within which a drifting text is level and high enough for a crowd at the site, to a tenth of a second;
 * looked for every 15 s, so that a shorter one may be missed. Null when it never is.
 *
 * Worked: 2,700 m up, 3,856 m in front (35 degrees), carried aside by 9 m/s from level at 0 s: `tan(aside) sin(e)` passes 15 degrees
 * 1,950 m aside, after 217 s.
 */
export function standingSpan(middleAt: (atSeconds: number) => SitePoint, wish: StandingWish, fromSeconds: number, toSeconds: number): StandingSpan | null {
  const lostBy = (atSeconds: number): 'leaning' | 'low' | null => {
    const seen = seenFromSite(middleAt(atSeconds), wish.layerAboveSiteMetres);
    if (seen.elevationRadians < STANDING_LIMITS.lowestRadians) return 'low';
    return Math.abs(shownTurnRadians(seen.azimuthRadians, wish.facingRadians, seen.elevationRadians)) > STANDING_LIMITS.leanRadians ? 'leaning' : null;
  };
  /** The change between two times, on the side that stands. */
  const edge = (standsAt: number, lostAt: number): number => {
    let [stands, lost] = [standsAt, lostAt];
    while (Math.abs(lost - stands) > CLOSE_SECONDS) {
      const middle = (stands + lost) / 2;
      if (lostBy(middle) === null) stands = middle;
      else lost = middle;
    }
    return stands;
  };
  let from: number | null = null;
  let before = fromSeconds;
  for (let at = fromSeconds; ; at = Math.min(at + STEP_SECONDS, toSeconds)) {
    const by = lostBy(at);
    if (by === null) from ??= at === fromSeconds ? at : edge(at, before);
    else if (from !== null) return { fromSeconds: from, untilSeconds: edge(before, at), endedBy: by };
    if (at >= toSeconds) return from === null ? null : { fromSeconds: from, untilSeconds: toSeconds, endedBy: null };
    before = at;
  }
}
