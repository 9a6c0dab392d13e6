import { geodeticFromSite } from '../core/earth/geodetic-from-site.ts';
import { type Site, siteFromGeodetic, type SitePoint } from '../core/earth/site-frame.ts';
import type { Fix } from '../core/tracking/fix.ts';
import type { PositionSource } from './position-source.ts';

/** Where the word of a walking rehearsal stands, and how much larger than on the field. */
export interface WalkingScale {
  /** Of the job. */
  readonly site: Site;
  readonly layerHeightMetres: number;
  /** Where the aircraft would be when the walker begins, in the site frame. */
  readonly start: SitePoint;
  /** A metre walked is so many metres flown: letters of 1,200 m on a field of 30 m are 40. */
  readonly scale: number;
}

/**
 * A walker's positions as an aircraft's: the first one is where the aircraft begins, each metre from it is `scale` metres of
 * flight, in the same direction. Pace becomes airspeed and the receiver's error grows with it; on a field there is no wind.
 */
export function walkingPosition(source: PositionSource, { site, layerHeightMetres, start, scale }: WalkingScale): PositionSource {
  if (!(scale > 0 && Number.isFinite(scale))) throw new RangeError(`scale must be above 0, not ${scale}`);
  return {
    start(listener) {
      let first: Fix | null = null;
      return source.start({
        fixesLost: (reason) => listener.fixesLost(reason),
        fixReceived(fix) {
          first ??= fix;
          const walked = siteFromGeodetic(fix, 0, { latitudeDegrees: first.latitudeDegrees, longitudeDegrees: first.longitudeDegrees, elevationMetres: 0 });
          const place = { eastMetres: start.eastMetres + scale * walked.eastMetres, northMetres: start.northMetres + scale * walked.northMetres };
          listener.fixReceived({
            ...fix,
            ...geodeticFromSite(place, layerHeightMetres, site),
            accuracyMetres: fix.accuracyMetres * scale,
            altitudeMetres: layerHeightMetres,
            groundSpeedMetresPerSecond: fix.groundSpeedMetresPerSecond === null ? null : fix.groundSpeedMetresPerSecond * scale,
          });
        },
      });
    },
  };
}
