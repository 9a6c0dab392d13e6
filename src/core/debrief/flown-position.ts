import { axesAt, pointFromAxes, type Site } from '../earth/site-frame.ts';
import type { Track } from '../tracks/track.ts';
import type { FlightEvent } from '../guidance/flight-event.ts';
import type { FlightSetup } from '../guidance/flight-setup.ts';
import { ASSUMED_LATENCY_SECONDS, fixTime } from '../tracking/fix-time.ts';
import type { StampTrust } from '../tracking/stamp-trust.ts';

/** Where a receiver said the aircraft was, judged by nobody yet, in the order of the times of measurement. */
export interface FlownPosition {
  /** When it was true: flight time for a log, seconds since the first point for an imported track. */
  readonly atSeconds: number;
  readonly eastMetres: number;
  readonly northMetres: number;
  /** Radius of 95 % confidence. */
  readonly accuracyMetres: number;
}

/** What a recorder that says nothing of its accuracy is taken for. */
const ASSUMED_ACCURACY_METRES = 8;
/** Less accurate than this is a position by radio masts. */
const IMPRECISE_METRES = 100;

/**
 * Positions of a log's fixes, timed as the flight timed them: by a believable stamp, else by arrival less the assumed
 * latency. Fixes less accurate than 100 m, repeated ones and those that run backward in time are left out.
 *
 * @param times of the events, see `flightTimes`
 */
export function positionsFromEvents(events: readonly FlightEvent[], times: Float64Array, setup: FlightSetup): FlownPosition[] {
  const positions: FlownPosition[] = [];
  const axes = axesAt(setup.site);
  let trust: StampTrust = { lastAgeSeconds: null, steady: false };
  let lastSeconds = -Infinity;
  let lastLatitudeDegrees = Number.NaN;
  let lastLongitudeDegrees = Number.NaN;
  for (let index = 0; index < events.length; index += 1) {
    const event = events[index]!;
    if (event.kind !== 'fixReceived') continue;
    const { latitudeDegrees, longitudeDegrees, accuracyMetres, stampMilliseconds } = event.fix;
    // Most receivers stamp nothing; what fixTime would then say is written out, for it is asked a hundred thousand times.
    let atSeconds = times[index]! - ASSUMED_LATENCY_SECONDS;
    if (stampMilliseconds !== null) {
      const time = fixTime(times[index]!, event.wallMilliseconds, stampMilliseconds, trust);
      trust = time.trust;
      atSeconds = time.measuredAtSeconds;
    }
    const repeated = latitudeDegrees === lastLatitudeDegrees && longitudeDegrees === lastLongitudeDegrees;
    if (repeated || !(accuracyMetres <= IMPRECISE_METRES) || atSeconds <= lastSeconds) continue;
    if (!(Math.abs(latitudeDegrees) <= 90) || !Number.isFinite(longitudeDegrees)) continue;
    const { eastMetres, northMetres } = pointFromAxes(axes, event.fix, setup.layerHeightMetres);
    positions.push({ atSeconds, eastMetres, northMetres, accuracyMetres });
    lastSeconds = atSeconds;
    lastLatitudeDegrees = latitudeDegrees;
    lastLongitudeDegrees = longitudeDegrees;
  }
  return positions;
}

/** Positions of an imported track, seen from a site; repeated ones are left out. Time runs from `zeroMilliseconds`. */
export function positionsFromTrack(track: Track, site: Site, layerHeightMetres: number, zeroMilliseconds: number): FlownPosition[] {
  const positions: FlownPosition[] = [];
  const axes = axesAt(site);
  let lastLatitudeDegrees = Number.NaN;
  let lastLongitudeDegrees = Number.NaN;
  for (const point of track.points) {
    const { timeMilliseconds, latitudeDegrees, longitudeDegrees } = point;
    if (latitudeDegrees === lastLatitudeDegrees && longitudeDegrees === lastLongitudeDegrees) continue;
    const { eastMetres, northMetres } = pointFromAxes(axes, point, layerHeightMetres);
    positions.push({ atSeconds: (timeMilliseconds - zeroMilliseconds) / 1000, eastMetres, northMetres, accuracyMetres: ASSUMED_ACCURACY_METRES });
    lastLatitudeDegrees = latitudeDegrees;
    lastLongitudeDegrees = longitudeDegrees;
  }
  return positions;
}
