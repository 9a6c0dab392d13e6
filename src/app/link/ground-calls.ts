import type { GroundCall } from '../../core/wire/link-messages.ts';
import { elapsedMilliseconds, type LinkInstant } from '../../link/link-clock.ts';
import type { RoomView } from '../../link/link-room.ts';

/** A call from the ground as the pilot reads it. */
export interface GroundCallShown {
  /** Stays the same while the call is shown. */
  readonly id: string;
  readonly call: GroundCall;
  readonly words: string;
  readonly from: string;
  /** Null where the observer's clock is in doubt. */
  readonly ageSeconds: number | null;
}

const WORDS: Readonly<Record<GroundCall, string>> = {
  'reads-well': 'READS WELL',
  'letter-broken': 'LETTER BROKEN',
  'cloud-coming': 'CLOUD COMING',
  traffic: 'TRAFFIC',
  stop: 'STOP',
};

/** Calls are shown for a minute after they came, STOP until it is touched; none that was five minutes on its way. */
const SHOWN_SECONDS = 60;
const TOO_OLD_SECONDS = 300;
const SHOWN_AT_ONCE = 2;
/** The same each time, so that no calls are no news. */
const NONE: readonly GroundCallShown[] = [];

/** The latest STOP, then the latest other calls, newest first, each with its age. They are words to be read: nothing else is made of them. */
export function groundCallsShown(room: RoomView | null, now: LinkInstant): readonly GroundCallShown[] {
  if (room === null || room.groundEvents.length === 0) return NONE;
  const names = new Map(room.observers.map(({ device, name }) => [device, name]));
  const shown = room.groundEvents
    .flatMap(({ device, event, at, ageAtArrival }): GroundCallShown[] => {
      if (event.kind !== 'call') return [];
      const hereSeconds = elapsedMilliseconds(at, now) / 1000;
      const onItsWaySeconds = ageAtArrival.kind === 'known' ? ageAtArrival.ageMilliseconds / 1000 : null;
      if ((onItsWaySeconds ?? 0) > TOO_OLD_SECONDS || (event.call !== 'stop' && hereSeconds > SHOWN_SECONDS)) return [];
      const ageSeconds = onItsWaySeconds === null ? null : onItsWaySeconds + hereSeconds;
      const letter = event.call === 'letter-broken' && event.character !== null ? `LETTER ${event.character} BROKEN` : WORDS[event.call];
      return [{ id: `${device}/${event.boot}/${event.sequence}`, call: event.call, words: letter, from: names.get(device) ?? device, ageSeconds }];
    })
    .reverse();
  if (shown.length === 0) return NONE;
  const stop = shown.find(({ call }) => call === 'stop');
  const others = shown.filter(({ call }) => call !== 'stop');
  return stop === undefined ? others.slice(0, SHOWN_AT_ONCE) : [stop, ...others.slice(0, SHOWN_AT_ONCE - 1)];
}
