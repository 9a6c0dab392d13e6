import { describe, expect, it } from 'vitest';
import { fixFromPosition } from '../../src/sensors/fix-from-position.ts';

const coords = { latitude: 47.5, longitude: 11.25, accuracy: 6, altitude: 3000, speed: 60, heading: 271 };

describe('fixFromPosition', () => {
  it('passes every value on', () => {
    expect(fixFromPosition({ coords, timestamp: 1_700_000_000_000 })).toEqual({
      latitudeDegrees: 47.5,
      longitudeDegrees: 11.25,
      accuracyMetres: 6,
      altitudeMetres: 3000,
      groundSpeedMetresPerSecond: 60,
      trackDegrees: 271,
      stampMilliseconds: 1_700_000_000_000,
    });
  });

  // W3C Geolocation (2024): heading is NaN when the speed is 0, and null when not known.
  it('never makes a value of NaN, null or a speed below zero', () => {
    const fix = fixFromPosition({ coords: { ...coords, speed: -1, heading: NaN, altitude: null }, timestamp: NaN });
    expect(fix).toMatchObject({ groundSpeedMetresPerSecond: null, trackDegrees: null, altitudeMetres: null, stampMilliseconds: null });
  });

  it.each([
    ['latitude', { latitude: NaN }],
    ['latitude', { latitude: 91 }],
    ['longitude', { longitude: Infinity }],
    ['accuracy', { accuracy: NaN }],
  ])('is no fix with a wrong %s', (_name, wrong) => {
    expect(fixFromPosition({ coords: { ...coords, ...wrong }, timestamp: 0 })).toBeNull();
  });
});
