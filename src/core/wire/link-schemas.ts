import * as v from 'valibot';
import { cleanName } from '../text/clean-name.ts';
import { bearing, choice, cleanedText, freeName, group, id, later, list, number, orNull, pattern, wholeNumber } from '../text/field-schemas.ts';

/** The longest payload anybody sends or takes, in bytes. */
export const LINK_PAYLOAD_BYTES = 8192;

/** Points of laid smoke in one event. */
export const LINK_POINTS_LIMIT = 64;

export const LINK_PHASES = ['standby', 'run-in', 'stroke', 'reposition', 'go-around', 'hold', 'finished', 'no-cue'] as const;

export const LINK_TOUCHES = [
  'strokeRedone',
  'strokeSkipped',
  'held',
  'holdReleased',
  'datumMovedHere',
  'hangingRefused',
  'knockedOff',
  'lastTouchUndone',
] as const;

/** Over the link a rating is told with its time up to a day from the first smoke; further off it is told without one. */
export const RATED_LIMIT_SECONDS = 86_400;

/** The few things an observer can say to the ships. They are shown there as words and act on nothing. */
export const GROUND_CALLS = ['reads-well', 'letter-broken', 'cloud-coming', 'traffic', 'stop'] as const;

/** How a letter reads, best first. */
export const LETTER_RATINGS = ['reads', 'weak', 'broken', 'not-seen'] as const;

/** 2020 to 2100: what is outside was not sent by a clock that anybody set. */
const clockTime = number([1_577_836_800_000, 4_102_444_800_000], 'Milliseconds since 1970 UTC by the sender\u2019s clock.');
const count = wholeNumber([0, 1_000_000], 'things');
const shipIndex = wholeNumber([0, 8], 'ships', 'The lead is 0.');
/** Of the text, from 0. */
export const letterIndex = wholeNumber([0, 99], 'letters', 'Of the text, from 0.');
const latitude = number([-90, 90], 'WGS 84, north positive.');
const longitude = number([-180, 180], 'WGS 84, east positive.');
const speed = number([0, 1000]);
const seconds = number([0, 86_400]);
const moved = number([-100_000, 100_000], 'From the briefed place, in the air-mass frame.');
const FLIGHT_KINDS = ['flight', 'rehearsal', 'replay'] as const;
const shortName = v.pipe(v.string(), v.maxLength(500), freeName());
/** One letter of the text, as it is written. */
export const character = v.pipe(
  v.string(),
  v.maxLength(16),
  cleanedText((text) => [...cleanName(text)][0] ?? '', 'One letter of the text.'),
);
/** First 24 hexadecimal digits of the job file's SHA-256. */
export const digest = pattern(
  /^[0-9a-f]{24}$/,
  'must be 24 hexadecimal digits',
  'First 24 hexadecimal digits of the job file\u2019s SHA-256; null where it could not be computed.',
);

/** A wind as `hanging-figures.ts` writes it. */
export const hangingFigures = pattern(
  /^\d{3} \d{3} \d$/,
  'must be three figures, three and one',
  'The wind that the text hangs for as figures on the radio; null as briefed.',
);

/** What every message says of its sender. */
const sender = {
  v: v.literal(1),
  device: id('The name the device connects under; must be the topic\u2019s, or the message is dropped.'),
  boot: id('Made each time the sender\u2019s page starts; events are counted from 0 within it.'),
  sentAtMilliseconds: clockTime,
};

/** Topic `state`: where a ship is now. */
export const SHIP_STATE_SCHEMA = group(
  {
    ...sender,
    eventCount: count,
    shipIndex,
    fix: orNull(
      group(
        {
          ageSeconds: number([0, 86_400], 'Age when the message was sent, by the ship\u2019s own count.'),
          latitudeDegrees: latitude,
          longitudeDegrees: longitude,
          altitudeMetres: orNull(number([-1000, 40_000], 'Above mean sea level.')),
          trackDegreesTrue: orNull(bearing()),
          groundSpeedMetresPerSecond: orNull(speed),
        },
        'The last good fix; null when there is none.',
      ),
    ),
    phase: choice(LINK_PHASES),
    smoke: orNull(choice(['on', 'off'])),
    strokeNumber: count,
    strokeCount: count,
    character: orNull(character),
    windFromDegreesTrue: orNull(bearing('As the ship measures it; null when it does not.')),
    windSpeedMetresPerSecond: orNull(speed),
    formation: later(
      orNull(
        group({
          flightKind: choice(FLIGHT_KINDS),
          datumInSeconds: orNull(number([-86_400, 86_400], 'From sending to the datum, by no clock; negative after it.')),
          hungFor: orNull(hangingFigures),
          hungBy: choice(['plan', 'hand', 'link', 'refusal'], 'Who said so: nobody yet, the pilot, the lead over the link, or the pilot against the lead.'),
          movedEastMetres: moved,
          movedNorthMetres: moved,
        }),
      ),
      null,
    ),
  },
  'Topic state: where a ship is now. eventCount counts the events of this boot, so that a gap is noticed at once.',
);

/** Topic `link`: whether a device is there, and what there is to be had from it. `lost` is the will's. */
export const LINK_PRESENCE_SCHEMA = group(
  {
    ...sender,
    state: choice(['up', 'lost', 'ended']),
    shipIndex: orNull(shipIndex),
    name: shortName,
    jobDigest: orNull(digest),
    boots: list(group({ boot: id(), count }), [0, 16], 'Every boot whose events can still be asked for.'),
  },
  'Topic link: whether a device is there, and what there is to be had from it. lost is the will\u2019s.',
);

/** 0, 1, 2 ... within the boot. */
const event = { ...sender, sequence: count, atMilliseconds: clockTime };

const aboutLetter = { letterIndex: orNull(letterIndex), character: orNull(character) };

/** Topic `event` of a ship: something that happened, told once and for all. */
export const SHIP_EVENT_SCHEMA = v.variant('kind', [
  group({ ...event, kind: v.literal('began'), flightKind: choice(FLIGHT_KINDS), shipIndex, shipName: shortName }),
  group({ ...event, kind: v.literal('datum'), datumMilliseconds: clockTime }, 'When the drift is zero: the lead\u2019s first smoke.'),
  group(
    {
      ...event,
      kind: v.literal('hung'),
      windFromDegreesTrue: orNull(bearing('For which wind; null where the text hangs as briefed.')),
      windSpeedMetresPerSecond: orNull(speed),
      movedEastMetres: moved,
      movedNorthMetres: moved,
    },
    'Where the text was hung before the first smoke, by the wind that was found.',
  ),
  group({ ...event, kind: v.literal('smoke'), smoke: choice(['on', 'off']), ...aboutLetter }),
  v.pipe(
    group(
      {
        ...event,
        kind: v.literal('laid'),
        ...aboutLetter,
        fromMilliseconds: clockTime,
        secondsAfter: list(seconds, [0, LINK_POINTS_LIMIT]),
        latitudesDegrees: list(latitude, [0, LINK_POINTS_LIMIT]),
        longitudesDegrees: list(longitude, [0, LINK_POINTS_LIMIT]),
      },
      'Smoke laid since the last such event: where, and how many seconds after fromMilliseconds.',
    ),
    v.check(
      ({ secondsAfter, latitudesDegrees, longitudesDegrees }) =>
        secondsAfter.length === latitudesDegrees.length && secondsAfter.length === longitudesDegrees.length,
    ),
    v.check(({ secondsAfter }) => secondsAfter.length >= 2 && secondsAfter.every((each, index) => each >= (secondsAfter[index - 1] ?? 0))),
  ),
  group({ ...event, kind: v.literal('phase'), phase: choice(LINK_PHASES) }),
  group({ ...event, kind: v.literal('touched'), touch: choice(LINK_TOUCHES) }),
  group({ ...event, kind: v.literal('ended') }),
]);

/** Topic `event` of an observer. */
export const GROUND_EVENT_SCHEMA = v.variant('kind', [
  group({ ...event, kind: v.literal('call'), call: choice(GROUND_CALLS), ...aboutLetter }),
  group({
    ...event,
    kind: v.literal('rated'),
    letterIndex,
    character,
    rating: choice(LETTER_RATINGS),
    sinceDatumSeconds: orNull(number([-RATED_LIMIT_SECONDS, RATED_LIMIT_SECONDS])),
  }),
]);

/** Topic `ask`: for events that were missed, or what time it is with you. */
export const LINK_ASK_SCHEMA = v.variant('kind', [
  v.pipe(
    group({ ...sender, kind: v.literal('events'), ofBoot: id(), fromSequence: count, toSequence: count }),
    v.check(({ fromSequence, toSequence }) => toSequence >= fromSequence),
  ),
  group({ ...sender, kind: v.literal('time'), nonce: id() }),
]);

/** Topic `answer`. */
export const LINK_ANSWER_SCHEMA = group({ ...sender, kind: v.literal('time'), nonce: id(), receivedAtMilliseconds: clockTime });
