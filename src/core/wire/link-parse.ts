import * as v from 'valibot';
import type { LinkAnswer, LinkAsk, LinkEvent, LinkPresence, ShipState } from './link-messages.ts';
import { LINK_PAYLOAD_BYTES } from './link-schemas.ts';
import { GROUND_EVENT_SCHEMA, LINK_ANSWER_SCHEMA, LINK_ASK_SCHEMA, LINK_PRESENCE_SCHEMA, SHIP_EVENT_SCHEMA, SHIP_STATE_SCHEMA } from './link-schemas.ts';
import { type LinkTopic, linkTopicFromText } from './link-topics.ts';
import { readJsonText } from '../text/json-text.ts';

/** A message that can be believed to come from its topic's device, as far as the broker holds devices to their topics. */
export type LinkMessage = { readonly topic: LinkTopic } & (
  | { readonly kind: 'state'; readonly state: ShipState }
  | { readonly kind: 'link'; readonly presence: LinkPresence }
  | { readonly kind: 'event'; readonly event: LinkEvent }
  | { readonly kind: 'ask'; readonly ask: LinkAsk }
  | { readonly kind: 'answer'; readonly answer: LinkAnswer }
  /** A retained message was cleared: what it said holds no more. */
  | { readonly kind: 'cleared' }
);

export type LinkReading = { readonly ok: true; readonly value: LinkMessage } | { readonly ok: false; readonly reason: string };

/**
 * A message from a topic and the payload's text, both from outside. All or nothing, into fresh objects of the known
 * fields; a device that is not the topic's is refused. Never throws. Inverse: JSON of the message's own part.
 */
export function linkMessageFrom(topicText: string, payloadText: string): LinkReading {
  const topic = linkTopicFromText(topicText);
  if (topic === null) return refuse('a topic of no known form');
  if (payloadText === '') return topic.kind === 'state' || topic.kind === 'link' ? { ok: true, value: { topic, kind: 'cleared' } } : refuse('an empty payload');
  // Each UTF-16 unit makes at least one byte, so a longer text is a longer payload.
  if (payloadText.length > LINK_PAYLOAD_BYTES) return refuse('a payload that is too long');
  const json = readJsonText(payloadText);
  if (!json.ok) return refuse('a payload that is not whole JSON');
  return messageFrom(topic, json.value);
}

function messageFrom(topic: LinkTopic, value: unknown): LinkReading {
  switch (topic.kind) {
    case 'state':
      return checked(topic, SHIP_STATE_SCHEMA, value, (state) => ({ topic, kind: 'state', state }));
    case 'link':
      return checked(topic, LINK_PRESENCE_SCHEMA, value, (presence) => ({ topic, kind: 'link', presence }));
    case 'event':
      return topic.role === 'ship'
        ? checked(topic, SHIP_EVENT_SCHEMA, value, (event) => ({ topic, kind: 'event', event }))
        : checked(topic, GROUND_EVENT_SCHEMA, value, (event) => ({ topic, kind: 'event', event }));
    case 'ask':
      return checked(topic, LINK_ASK_SCHEMA, value, (ask) => ({ topic, kind: 'ask', ask }));
    case 'answer':
      return checked(topic, LINK_ANSWER_SCHEMA, value, (answer) => ({ topic, kind: 'answer', answer }));
  }
}

function checked<Schema extends v.GenericSchema<unknown, { readonly device: string }>>(
  topic: LinkTopic,
  schema: Schema,
  value: unknown,
  wrap: (output: v.InferOutput<Schema>) => LinkMessage,
): LinkReading {
  const result = v.safeParse(schema, value, { abortEarly: true, abortPipeEarly: true });
  if (!result.success) return refuse(`a ${topic.kind} message with a wrong ${v.getDotPath(result.issues[0]) ?? 'form'}`);
  if (result.output.device !== topic.device) return refuse('a message that names another device than its topic');
  return { ok: true, value: wrap(result.output) };
}

function refuse(reason: string): LinkReading {
  return { ok: false, reason };
}
