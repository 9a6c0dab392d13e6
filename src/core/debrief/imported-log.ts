import type { Site } from '../earth/site-frame.ts';
import type { Track } from '../tracks/track.ts';
import type { FlightSetup } from '../guidance/flight-setup.ts';
import { positionsFromTrack } from './flown-position.ts';
import type { ShipLog } from './ship-log.ts';
import type { SeenSmoke } from './smoke-intervals.ts';
import { smoothTrack } from './smooth-track.ts';
import { windHistory } from './wind-history.ts';

/** Nothing is known of a stranger's wind; 40 kt in each component is rarely passed at the heights flown. */
const STRANGE_WIND_SIGMA_METRES_PER_SECOND = 20;
const STRANGE_AIRSPEED_SIGMA_METRES_PER_SECOND = 15;
const SLOWEST_METRES_PER_SECOND = 15;

/**
 * A track from another recorder as a log without events: positions smoothed, wind and airspeed found from the track
 * alone, since only turning tells them apart.
 *
 * @param setup what the ship was to fly; {@link strangeSetup} when nobody knows
 */
export function logFromTrack(track: Track, setup: FlightSetup): ShipLog {
  const zeroMilliseconds = track.points[0]?.timeMilliseconds ?? 0;
  const smooth = smoothTrack(positionsFromTrack(track, setup.site, setup.layerHeightMetres, zeroMilliseconds));
  const speeds = Array.from(smooth.eastMetresPerSecond, (east, index) => Math.hypot(east, smooth.northMetresPerSecond[index]!)).filter(
    (speed) => speed > SLOWEST_METRES_PER_SECOND,
  );
  const meanSpeed = speeds.length === 0 ? setup.trueAirspeedMetresPerSecond : speeds.reduce((sum, speed) => sum + speed, 0) / speeds.length;
  const wind = windHistory(smooth, {
    wind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
    windSigmaMetresPerSecond: STRANGE_WIND_SIGMA_METRES_PER_SECOND,
    airspeedMetresPerSecond: meanSpeed,
    airspeedSigmaMetresPerSecond: STRANGE_AIRSPEED_SIGMA_METRES_PER_SECOND,
  });
  return { setup, events: [], times: new Float64Array(0), zeroMilliseconds, track: smooth, wind };
}

/** The log of the same track for another setup: what was smoothed is kept where both see it from the same place. */
export function logForSetup(log: ShipLog, track: Track, setup: FlightSetup): ShipLog {
  const { site, layerHeightMetres } = log.setup;
  const isSamePlace =
    layerHeightMetres === setup.layerHeightMetres &&
    site.latitudeDegrees === setup.site.latitudeDegrees &&
    site.longitudeDegrees === setup.site.longitudeDegrees &&
    site.elevationMetres === setup.site.elevationMetres;
  return isSamePlace ? { ...log, setup } : logFromTrack(track, setup);
}

/** The setup of a ship of which only the track is known: no strokes, no latencies, no oil. */
export function strangeSetup(shipName: string, shipIndex: number, site: Site, layerHeightMetres: number): FlightSetup {
  return {
    jobId: '',
    shipIndex,
    shipName,
    site,
    layerHeightMetres,
    variationDegrees: 0,
    forecastWind: { eastMetresPerSecond: 0, northMetresPerSecond: 0 },
    trueAirspeedMetresPerSecond: 50,
    writingBankRadians: Math.PI / 4,
    turningBankRadians: Math.PI / 4,
    maximumBankRadians: Math.PI / 3,
    rollRateRadiansPerSecond: Math.PI / 4,
    runInSeconds: 0,
    runOutSeconds: 0,
    valveOnSeconds: 0,
    valveOffSeconds: 0,
    reactionSeconds: 0,
    oilKilograms: 0,
    oilKilogramsPerSecond: 0,
    letterHeightMetres: 1000,
    strokes: [],
    datum: { kind: 'first-smoke' },
  };
}

/** Smoke as a track itself tells it; empty for a track that says nothing of smoke. */
export function seenSmokeFromTrack(track: Track): SeenSmoke[] {
  const zeroMilliseconds = track.points[0]?.timeMilliseconds ?? 0;
  const seen: SeenSmoke[] = [];
  let onSeconds: number | null = null;
  for (const { timeMilliseconds, smoke } of track.points) {
    const atSeconds = (timeMilliseconds - zeroMilliseconds) / 1000;
    if (smoke === 'on') {
      onSeconds ??= atSeconds;
    } else if (onSeconds !== null) {
      seen.push({ onSeconds, offSeconds: atSeconds });
      onSeconds = null;
    }
  }
  const last = track.points.at(-1);
  if (onSeconds !== null && last !== undefined) seen.push({ onSeconds, offSeconds: (last.timeMilliseconds - zeroMilliseconds) / 1000 });
  return seen.filter((each) => each.offSeconds > each.onSeconds);
}
