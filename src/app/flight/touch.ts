import type { FlightFact } from '../../core/guidance/flight-event.ts';

/** What the pilot can do with a touch in flight. */
export type Touch = Extract<
  FlightFact['kind'],
  'strokeRedone' | 'strokeSkipped' | 'held' | 'holdReleased' | 'datumMovedHere' | 'hangingRefused' | 'knockedOff' | 'lastTouchUndone'
>;
