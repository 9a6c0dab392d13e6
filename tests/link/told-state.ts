import type { ToldState } from '../../src/link/ship-teller.ts';

/** What a ship on a stroke tells of itself. */
export const TOLD_STATE: ToldState = {
  shipIndex: 0,
  fix: { ageSeconds: 0.4, latitudeDegrees: 43.9, longitudeDegrees: -74.4, altitudeMetres: 3200, trackDegreesTrue: 70, groundSpeedMetresPerSecond: 55 },
  phase: 'stroke',
  smoke: 'on',
  strokeNumber: 1,
  strokeCount: 9,
  character: 'S',
  windFromDegreesTrue: 70,
  windSpeedMetresPerSecond: 6,
  formation: null,
};
