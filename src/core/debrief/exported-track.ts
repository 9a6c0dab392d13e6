import type { Track, TrackPoint } from '../tracks/track.ts';
import { fixTime } from '../tracking/fix-time.ts';
import type { StampTrust } from '../tracking/stamp-trust.ts';
import type { ShipLog } from './ship-log.ts';
import type { SmokeInterval } from './smoke-intervals.ts';

/** A pause between fixes that is a loss of reception and not a slow receiver. */
const GAP_SECONDS = 5;

/**
 * A log as a track to give away: every fix as it was received, at the time it was measured, smoke as it is believed.
 * Nothing is smoothed and nothing is joined over a gap: five seconds without a fix end a segment. Heights are the
 * device's own, above whatever it counts from.
 */
export function exportedTrack({ setup, events, times, zeroMilliseconds }: ShipLog, intervals: readonly SmokeInterval[]): Track {
  const points: TrackPoint[] = [];
  const segmentStarts: number[] = [];
  let trust: StampTrust = { lastAgeSeconds: null, steady: false };
  let lastSeconds = -Infinity;
  for (const [index, event] of events.entries()) {
    if (event.kind !== 'fixReceived') continue;
    const { latitudeDegrees, longitudeDegrees, altitudeMetres, stampMilliseconds } = event.fix;
    const time = fixTime(times[index]!, event.wallMilliseconds, stampMilliseconds, trust);
    trust = time.trust;
    const atSeconds = time.measuredAtSeconds;
    if (!(atSeconds > lastSeconds) || !(Math.abs(latitudeDegrees) <= 90) || !Number.isFinite(longitudeDegrees)) continue;
    if (atSeconds - lastSeconds > GAP_SECONDS) segmentStarts.push(points.length);
    lastSeconds = atSeconds;
    points.push({
      timeMilliseconds: Math.round(zeroMilliseconds + atSeconds * 1000),
      latitudeDegrees,
      longitudeDegrees: longitudeDegrees === 180 ? -180 : longitudeDegrees,
      heightMetres: altitudeMetres !== null && Number.isFinite(altitudeMetres) ? altitudeMetres : null,
      smoke: intervals.some(({ onSeconds, offSeconds }) => atSeconds >= onSeconds && atSeconds < offSeconds) ? 'on' : 'off',
    });
  }
  return { name: setup.shipName, heightsAbove: 'unknown', points, segmentStarts };
}
