import { signedRadians, degreesFromRadians } from '../units/angle.ts';

/** What the gate before smoke ON looks at, at the moment the smoke would begin. */
export interface GateReading {
  readonly crossTrackMetres: number;
  readonly headingErrorRadians: number;
  readonly airspeedMetresPerSecond: number;
  readonly fixAgeSeconds: number;
  /** How long ago the hand should have moved; negative while there is time. */
  readonly lateSeconds: number;
}

const CROSS_TRACK_PER_LETTER_HEIGHT = 0.04;
const LEAST_CROSS_TRACK_METRES = 20;
const HEADING_ERROR_RADIANS = (10 * Math.PI) / 180;
const AIRSPEED_SHARE = 0.12;
/** Older than this a fix tells no smoke ON, and no steady lateness makes it younger. */
export const FIX_AGE_SECONDS = 2.2;
const LATE_SECONDS = 0.6;

/**
 * Null when smoke ON may be cued, otherwise why not, in words for the pilot. Inside: cross-track within 0.04 of the
 * letter's height (at least 20 m), heading within 10 degrees, airspeed within 12 % of the planned one, the last fix
 * measured at most 2.2 s ago: one a second, late by one; and the moment for the hand not missed by more than 0.6 s.
 */
export function gateRefusal(reading: GateReading, letterHeightMetres: number, plannedAirspeedMetresPerSecond: number): string | null {
  const limitMetres = Math.max(LEAST_CROSS_TRACK_METRES, CROSS_TRACK_PER_LETTER_HEIGHT * letterHeightMetres);
  // A page that stood still may come too late: never a late ON.
  if (reading.lateSeconds > LATE_SECONDS) return 'smoke-on moment missed';
  if (reading.fixAgeSeconds > FIX_AGE_SECONDS) return `fix ${reading.fixAgeSeconds.toFixed(0)} s old`;
  if (Math.abs(reading.crossTrackMetres) > limitMetres) {
    return `${Math.abs(reading.crossTrackMetres).toFixed(0)} m ${reading.crossTrackMetres > 0 ? 'right' : 'left'} of the line`;
  }
  const headingError = signedRadians(reading.headingErrorRadians);
  if (Math.abs(headingError) > HEADING_ERROR_RADIANS) return `heading ${Math.abs(degreesFromRadians(headingError)).toFixed(0)}° off`;
  if (Math.abs(reading.airspeedMetresPerSecond / plannedAirspeedMetresPerSecond - 1) > AIRSPEED_SHARE) return 'airspeed off';
  return null;
}

/** Positions that always come later than the gate lets pass, in words for the pilot. */
export function tooLateWords(lateSeconds: number): string {
  return `positions come ${lateSeconds.toFixed(1)} s late: too late to write by`;
}
