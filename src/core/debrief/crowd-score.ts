import { separationRadians, sunAt } from '../earth/sun.ts';
import type { Hanging } from '../guidance/hanging/hanging.ts';
import { type SeenPoint, seenFromSite, shownTurnRadians } from '../sky/perspective.ts';
import { driftSince } from './air-track.ts';
import type { FrameOffset } from './frame-offset.ts';
import type { ShipLog } from './ship-log.ts';

/** How the word stood to the crowd at one moment, its line as one piece. */
export interface CrowdLook {
  readonly atMilliseconds: number;
  readonly seen: SeenPoint;
  /** Positive rising to the right; more than a quarter from behind. */
  readonly leanRadians: number;
  /** Between the word's middle and the sun; null while the sun is down. */
  readonly sunRadians: number | null;
}

/** What the crowd saw of a word, judged from the flight's own log. */
export interface CrowdScore {
  readonly hung: Hanging['kind'];
  readonly wishedElevationRadians: number;
  readonly wishedAzimuthRadians: number;
  readonly atLastSmoke: CrowdLook;
  /** In the middle of the reading. */
  readonly middle: CrowdLook;
  /** At the last smoke, over the ground, from where it was promised when it was hung. */
  readonly offMetres: number;
}

/**
 * Where the word truly stood, by the wind found over the whole flight: its middle as briefed, with what it was moved by and hung
 * off its place, carried by the drift since the datum; after the log's end by its last wind.
 *
 * @param laid how far the whole text lay from its briefed place in the air-mass frame
 * @returns null for a log whose setup knows no crowd, without a wind, or without a last smoke
 */
export function crowdScore(log: ShipLog, hanging: Hanging | null, laid: FrameOffset, datumSeconds: number, lastSmokeSeconds: number | null): CrowdScore | null {
  const wish = log.setup.hanging;
  const { wind } = log;
  if (wish === undefined || hanging === null || wind === null || lastSmokeSeconds === null) return null;
  const placeAt = (atSeconds: number): { eastMetres: number; northMetres: number } => {
    const drift = driftSince(wind, datumSeconds, atSeconds);
    return {
      eastMetres: wish.middle.airEastMetres + laid.eastMetres + drift.eastMetres,
      northMetres: wish.middle.airNorthMetres + laid.northMetres + drift.northMetres,
    };
  };
  const look = (atSeconds: number): CrowdLook => {
    const seen = seenFromSite(placeAt(atSeconds), wish.layerAboveSiteMetres);
    const atMilliseconds = log.zeroMilliseconds + 1000 * atSeconds;
    const sun = sunAt(log.setup.site, atMilliseconds);
    return {
      atMilliseconds,
      seen,
      leanRadians: shownTurnRadians(seen.azimuthRadians, wish.facingRadians, seen.elevationRadians),
      sunRadians: sun.elevationRadians > 0 ? separationRadians(seen, sun) : null,
    };
  };
  const stood = placeAt(lastSmokeSeconds);
  return {
    hung: hanging.kind,
    wishedElevationRadians: wish.viewElevationRadians,
    wishedAzimuthRadians: wish.facingRadians,
    atLastSmoke: look(lastSmokeSeconds),
    middle: look(lastSmokeSeconds + hanging.levelAfterSeconds),
    offMetres: Math.hypot(stood.eastMetres - hanging.atLastSmoke.eastMetres, stood.northMetres - hanging.atLastSmoke.northMetres),
  };
}
