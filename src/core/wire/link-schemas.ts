import * as v from 'valibot';
import { cleanName } from '../text/clean-name.ts';
import { GROUND_CALLS, LETTER_RATINGS, LINK_PHASES, LINK_POINTS_LIMIT, LINK_TOUCHES } from './link-messages.ts';

/** 2020 to 2100: what is outside was not sent by a clock that anybody set. */
const clockTime = v.pipe(v.number(), v.finite(), v.minValue(1_577_836_800_000), v.maxValue(4_102_444_800_000));
const id = v.pipe(v.string(), v.regex(/^[A-Za-z0-9_-]{1,32}$/));
const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(1_000_000));
const shipIndex = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(8));
const letterIndex = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(99));
const latitude = v.pipe(v.number(), v.finite(), v.minValue(-90), v.maxValue(90));
const longitude = v.pipe(v.number(), v.finite(), v.minValue(-180), v.maxValue(180));
const bearing = v.pipe(
  v.number(),
  v.finite(),
  v.minValue(0),
  v.maxValue(360),
  v.transform((degrees) => degrees % 360),
);
const speed = v.pipe(v.number(), v.finite(), v.minValue(0), v.maxValue(1000));
const altitude = v.pipe(v.number(), v.finite(), v.minValue(-1000), v.maxValue(40_000));
const seconds = v.pipe(v.number(), v.finite(), v.minValue(0), v.maxValue(86_400));
const name = v.pipe(v.string(), v.maxLength(500), v.transform(cleanName));
const character = v.pipe(
  v.string(),
  v.maxLength(16),
  v.transform(cleanName),
  v.transform((text) => [...text][0] ?? ''),
  v.minLength(1),
);
const digest = v.pipe(v.string(), v.regex(/^[0-9a-f]{24}$/));

const list = <Item extends v.GenericSchema>(item: Item, greatest: number) =>
  // The length is judged before the items, so that a huge list costs nothing.
  v.pipe(
    v.custom<unknown[]>((input) => Array.isArray(input) && input.length <= greatest),
    v.array(item),
  );

const sender = { v: v.literal(1), device: id, boot: id, sentAtMilliseconds: clockTime };

export const SHIP_STATE_SCHEMA = v.object({
  ...sender,
  eventCount: count,
  shipIndex,
  fix: v.nullable(
    v.object({
      ageSeconds: seconds,
      latitudeDegrees: latitude,
      longitudeDegrees: longitude,
      altitudeMetres: v.nullable(altitude),
      trackDegreesTrue: v.nullable(bearing),
      groundSpeedMetresPerSecond: v.nullable(speed),
    }),
  ),
  phase: v.picklist(LINK_PHASES),
  smoke: v.nullable(v.picklist(['on', 'off'])),
  strokeNumber: count,
  strokeCount: count,
  character: v.nullable(character),
  windFromDegreesTrue: v.nullable(bearing),
  windSpeedMetresPerSecond: v.nullable(speed),
});

export const LINK_PRESENCE_SCHEMA = v.object({
  ...sender,
  state: v.picklist(['up', 'lost', 'ended']),
  shipIndex: v.nullable(shipIndex),
  name,
  jobDigest: v.nullable(digest),
  boots: list(v.object({ boot: id, count }), 16),
});

const event = { ...sender, sequence: count, atMilliseconds: clockTime };

export const SHIP_EVENT_SCHEMA = v.variant('kind', [
  v.object({ ...event, kind: v.literal('began'), flightKind: v.picklist(['flight', 'rehearsal', 'replay']), shipIndex, shipName: name }),
  v.object({ ...event, kind: v.literal('datum'), datumMilliseconds: clockTime }),
  v.object({
    ...event,
    kind: v.literal('smoke'),
    smoke: v.picklist(['on', 'off']),
    letterIndex: v.nullable(letterIndex),
    character: v.nullable(character),
  }),
  v.pipe(
    v.object({
      ...event,
      kind: v.literal('laid'),
      letterIndex: v.nullable(letterIndex),
      character: v.nullable(character),
      fromMilliseconds: clockTime,
      secondsAfter: list(seconds, LINK_POINTS_LIMIT),
      latitudesDegrees: list(latitude, LINK_POINTS_LIMIT),
      longitudesDegrees: list(longitude, LINK_POINTS_LIMIT),
    }),
    v.check(
      ({ secondsAfter, latitudesDegrees, longitudesDegrees }) =>
        secondsAfter.length === latitudesDegrees.length && secondsAfter.length === longitudesDegrees.length,
    ),
    v.check(({ secondsAfter }) => secondsAfter.length >= 2 && secondsAfter.every((each, index) => each >= (secondsAfter[index - 1] ?? 0))),
  ),
  v.object({ ...event, kind: v.literal('phase'), phase: v.picklist(LINK_PHASES) }),
  v.object({ ...event, kind: v.literal('touched'), touch: v.picklist(LINK_TOUCHES) }),
  v.object({ ...event, kind: v.literal('ended') }),
]);

export const GROUND_EVENT_SCHEMA = v.variant('kind', [
  v.object({
    ...event,
    kind: v.literal('call'),
    call: v.picklist(GROUND_CALLS),
    letterIndex: v.nullable(letterIndex),
    character: v.nullable(character),
  }),
  v.object({
    ...event,
    kind: v.literal('rated'),
    letterIndex,
    character,
    rating: v.picklist(LETTER_RATINGS),
    sinceDatumSeconds: v.nullable(v.pipe(v.number(), v.finite(), v.minValue(-86_400), v.maxValue(86_400))),
  }),
]);

export const LINK_ASK_SCHEMA = v.variant('kind', [
  v.pipe(
    v.object({ ...sender, kind: v.literal('events'), ofBoot: id, fromSequence: count, toSequence: count }),
    v.check(({ fromSequence, toSequence }) => toSequence >= fromSequence),
  ),
  v.object({ ...sender, kind: v.literal('time'), nonce: id }),
]);

export const LINK_ANSWER_SCHEMA = v.object({ ...sender, kind: v.literal('time'), nonce: id, receivedAtMilliseconds: clockTime });
