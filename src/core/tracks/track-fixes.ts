import type { Fix } from '../tracking/fix.ts';
import type { Track } from './track.ts';

/** A fix of a recorded flight with the moment at which it is to be given out. */
export interface TimedFix {
  /** Since the track's first point. */
  readonly atSeconds: number;
  readonly fix: Fix;
}

/** What a recorder that says nothing of its accuracy is taken for: a satellite receiver in the open. */
const ASSUMED_ACCURACY_METRES = 10;

/**
 * A recorded flight as a source of fixes, one for each point, none invented in between. Speed and track over the
 * ground are null, for files do not carry them; stamps are the recorder's.
 */
export function fixesFromTrack(track: Track): readonly TimedFix[] {
  const startMilliseconds = track.points[0]?.timeMilliseconds ?? 0;
  return track.points.map((point) => ({
    atSeconds: (point.timeMilliseconds - startMilliseconds) / 1000,
    fix: {
      latitudeDegrees: point.latitudeDegrees,
      longitudeDegrees: point.longitudeDegrees,
      accuracyMetres: ASSUMED_ACCURACY_METRES,
      altitudeMetres: point.heightMetres,
      groundSpeedMetresPerSecond: null,
      trackDegrees: null,
      stampMilliseconds: point.timeMilliseconds,
    },
  }));
}
