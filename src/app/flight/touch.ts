import type { FlightFact } from '../../core/guidance/flight-event.ts';

const TOUCHES = [
  'strokeRedone',
  'strokeSkipped',
  'held',
  'holdReleased',
  'datumMovedHere',
  'hangingRefused',
  'knockedOff',
  'lastTouchUndone',
] as const satisfies readonly FlightFact['kind'][];

/** What the pilot can do with a touch in flight. */
export type Touch = (typeof TOUCHES)[number];

/** True for a fact that the pilot's touch made. */
export function isTouch(kind: FlightFact['kind']): kind is Touch {
  return TOUCHES.some((touch) => touch === kind);
}
