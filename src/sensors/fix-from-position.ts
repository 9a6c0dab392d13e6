import type { Fix } from '../core/tracking/fix.ts';

/** What is read of a `GeolocationPosition`; the browser's own type fits. */
export interface DevicePositionReport {
  readonly coords: {
    readonly latitude: number;
    readonly longitude: number;
    readonly accuracy: number;
    readonly altitude: number | null;
    readonly speed: number | null;
    readonly heading: number | null;
  };
  readonly timestamp: number;
}

const finiteOrNull = (value: number | null | undefined): number | null => (typeof value === 'number' && Number.isFinite(value) ? value : null);

/**
 * A fix from what the browser reports; null for one without a place. A heading of NaN (a receiver standing still)
 * and a speed below zero are no values. The stamp passes as it is: some devices count from 2001, and the gate
 * decides what to believe.
 */
export function fixFromPosition({ coords, timestamp }: DevicePositionReport): Fix | null {
  const { latitude, longitude, accuracy } = coords;
  if (!(Math.abs(latitude) <= 90) || !(Math.abs(longitude) <= 180) || !(accuracy >= 0)) return null;
  const speed = finiteOrNull(coords.speed);
  return {
    latitudeDegrees: latitude,
    longitudeDegrees: longitude,
    accuracyMetres: accuracy,
    altitudeMetres: finiteOrNull(coords.altitude),
    groundSpeedMetresPerSecond: speed !== null && speed >= 0 ? speed : null,
    trackDegrees: finiteOrNull(coords.heading),
    stampMilliseconds: finiteOrNull(timestamp),
  };
}
