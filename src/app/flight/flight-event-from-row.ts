import type { FlightEvent } from '../../core/guidance/flight-event.ts';

const KINDS: Readonly<Record<FlightEvent['kind'], (event: Record<string, unknown>) => boolean>> = {
  flightStarted: ({ setup }) => isRecord(setup) && typeof setup['jobId'] === 'string' && Array.isArray(setup['strokes']) && isRecord(setup['site']),
  flightResumed: () => true,
  fixReceived: ({ fix }) => isRecord(fix) && typeof fix['latitudeDegrees'] === 'number' && typeof fix['longitudeDegrees'] === 'number',
  fixesLost: ({ reason }) => reason === 'permission' || reason === 'unavailable' || reason === 'hidden',
  clockAdvanced: () => true,
  smokeSwitched: ({ smoke }) => smoke === 'on' || smoke === 'off',
  clockAnswered: ({ slept }) => typeof slept === 'boolean',
  earsChosen: ({ byEar }) => typeof byEar === 'boolean',
  orderSaid: ({ turn, headingMagneticDegrees, bankDegrees, endsAtSeconds }) =>
    (turn === 'left' || turn === 'right' || turn === 'straight') && [headingMagneticDegrees, bankDegrees, endsAtSeconds].every(Number.isFinite),
  restOrdered: ({ rest }) =>
    Array.isArray(rest) &&
    rest.every((one) => isRecord(one) && Number.isInteger(one['strokeIndex']) && Number.isFinite(one['restSeconds']) && isRecord(one['path'])),
  strokeRedone: () => true,
  strokeSkipped: () => true,
  held: () => true,
  holdReleased: () => true,
  datumMovedHere: () => true,
  hangingRefused: () => true,
  hangingGiven: ({ wind, by }) =>
    (by === undefined || by === 'link' || by === 'refusal') &&
    (wind === null || (isRecord(wind) && Number.isFinite(wind['eastMetresPerSecond']) && Number.isFinite(wind['northMetresPerSecond']))),
  leadTimed: ({ laterSeconds, kept }) => (laterSeconds === null || Number.isFinite(laterSeconds)) && (kept === undefined || kept === true),
  datumTimed: ({ datumWallMilliseconds }) => typeof datumWallMilliseconds === 'number',
  knockedOff: () => true,
  lastTouchUndone: () => true,
};

/**
 * The event that a log's row holds; null when it is none this version knows. Rows are checked for damage when they
 * are read, so this looks at what a row means and not at every number of it.
 */
export function flightEventFromRow(event: unknown): FlightEvent | null {
  if (!isRecord(event) || !Number.isFinite(event['atSeconds']) || !Number.isFinite(event['wallMilliseconds'])) return null;
  const { kind } = event;
  if (typeof kind !== 'string' || !Object.hasOwn(KINDS, kind)) return null;
  return KINDS[kind as FlightEvent['kind']](event) ? (event as unknown as FlightEvent) : null;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
