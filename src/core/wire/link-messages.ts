import type * as v from 'valibot';
import type { ReadonlyOf } from '../text/field-schemas.ts';
import type {
  GROUND_CALLS,
  GROUND_EVENT_SCHEMA,
  LETTER_RATINGS,
  LINK_ANSWER_SCHEMA,
  LINK_ASK_SCHEMA,
  LINK_PRESENCE_SCHEMA,
  LINK_TOUCHES,
  SHIP_EVENT_SCHEMA,
  SHIP_STATE_SCHEMA,
} from './link-schemas.ts';

/**
 * What the link carries: JSON, one message a payload. `link-schemas.ts` has every field. Clock times are milliseconds
 * since 1970 UTC by the SENDER's clock, which nobody trusts to be right; ages are worked out from them by the receiver.
 */
export type ShipState = ReadonlyOf<typeof SHIP_STATE_SCHEMA>;
export type LinkPresence = ReadonlyOf<typeof LINK_PRESENCE_SCHEMA>;
export type LinkAsk = ReadonlyOf<typeof LINK_ASK_SCHEMA>;
export type LinkAnswer = ReadonlyOf<typeof LINK_ANSWER_SCHEMA>;

/** Something that happened, told once and for all. */
export type LinkEvent = ReadonlyOf<typeof SHIP_EVENT_SCHEMA> | ReadonlyOf<typeof GROUND_EVENT_SCHEMA>;

/** What every message says of its sender. */
export type LinkSender = Pick<LinkPresence, 'v' | 'device' | 'boot' | 'sentAtMilliseconds'>;

/** What happened, before a sender has put its name, its count and its clock to it. */
export type ShipFact = FactOf<typeof SHIP_EVENT_SCHEMA>;
export type GroundFact = FactOf<typeof GROUND_EVENT_SCHEMA>;
export type LinkFact = ShipFact | GroundFact;

export type LinkTouch = (typeof LINK_TOUCHES)[number];
export type GroundCall = (typeof GROUND_CALLS)[number];
export type LetterRating = (typeof LETTER_RATINGS)[number];

type FactOf<Schema extends v.GenericSchema> = WithoutEnvelope<ReadonlyOf<Schema>>;
type WithoutEnvelope<Event> = Event extends unknown ? Omit<Event, keyof LinkSender | 'sequence' | 'atMilliseconds'> : never;
