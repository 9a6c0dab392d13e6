import type { FlightEvent } from '../guidance/flight-event.ts';
import type { FlightSetup } from '../guidance/flight-setup.ts';

const TOUCHES: readonly FlightEvent['kind'][] = ['strokeRedone', 'strokeSkipped', 'held', 'holdReleased', 'datumMovedHere', 'hangingRefused', 'knockedOff'];

/** The strokes of a flight each in the direction in which it was flown last: what was ordered anew may have been turned round, and a touch undone. */
export function strokesAsFlown(setup: FlightSetup, events: readonly FlightEvent[]): FlightSetup['strokes'] {
  let { strokes } = setup;
  let before = strokes;
  for (const event of events) {
    if (TOUCHES.includes(event.kind)) before = strokes;
    else if (event.kind === 'lastTouchUndone') strokes = before;
    else if (event.kind === 'restOrdered') {
      const { rest, chosen } = event;
      if (chosen === true) before = strokes;
      strokes = strokes.map((stroke, index) => ({ ...stroke, path: rest.find(({ strokeIndex }) => strokeIndex === index)?.path ?? stroke.path }));
    }
  }
  return strokes;
}
