import { choice, freeName, group, later, list, number, orNull, pattern, utcTime } from '../text/field-schemas.ts';

/** The longest lists of a booking. */
export const BOOKING_LENGTHS = { permissions: 20, spareTimes: 10, outcomes: 40, crew: 20, viewingPlaces: 9, forecasts: 60 } as const;

/** What a client may be owed for the fee. */
export const OWED = ['words', 'pictures', 'film'] as const;

/** How far a permission has come. */
export const PERMISSION_STATES = ['to-ask', 'asked', 'granted', 'refused'] as const;

/** What became of a day that was booked. */
export const OUTCOMES = ['flown', 'dud', 'cancelled', 'postponed'] as const;

const MONEY = [0, 1e9] as const;

const permission = group({
  name: freeName('What is permitted: waiver, airspace, landing ground; empty where nobody has said.'),
  state: choice(PERMISSION_STATES),
  number: freeName('Its number or mark.'),
  saidBy: freeName('Who gave or refused it, and when.'),
});

const outcome = group({
  atTime: utcTime('When it was decided.'),
  kind: choice(OUTCOMES),
  cause: freeName('Why, in a few words.'),
  calledBy: freeName('Who called it.'),
  costAmount: orNull(number(MONEY, 'What it cost, in the fee\u2019s currency; null when nobody has said.')),
});

/** The office's side of a job: who pays, what is owed, what is permitted, what became of it. */
export const BOOKING_SCHEMA = later(
  group(
    {
      client: freeName('Who ordered it.'),
      contact: freeName('Who is called, with the telephone number.'),
      feeAmount: orNull(number(MONEY, 'Null when nobody has said.')),
      feeCurrency: pattern(/^([A-Z]{3})?$/, 'must be three capital letters, such as EUR', 'ISO 4217; empty when nobody has said.'),
      owed: list(choice(OWED), [0, OWED.length], 'What the client gets.'),
      deadlineTime: orNull(utcTime('By when it is owed.')),
      callTime: orNull(utcTime('When go or no-go is called.')),
      reportTime: orNull(utcTime('When everyone reports for the brief.')),
      spareTimes: list(utcTime('Another read time that was kept free.'), [0, BOOKING_LENGTHS.spareTimes]),
      permissions: list(permission, [0, BOOKING_LENGTHS.permissions]),
      sentTime: orNull(utcTime('When the account was sent.')),
      paidTime: orNull(utcTime('When it was paid.')),
      outcomes: list(outcome, [0, BOOKING_LENGTHS.outcomes], 'Oldest first.'),
    },
    'May be missing. Not given to other ships and the ground: see office-part.ts.',
  ),
  () => ({
    client: '',
    contact: '',
    feeAmount: null,
    feeCurrency: '',
    owed: [],
    deadlineTime: null,
    callTime: null,
    reportTime: null,
    spareTimes: [],
    permissions: [],
    sentTime: null,
    paidTime: null,
    outcomes: [],
  }),
);

/** Places beside the site where people stand and look up. */
export const VIEWING_PLACES_SCHEMA = later(
  list(
    group({
      name: freeName('Empty where nobody has said.'),
      latitudeDegrees: number([-85, 85], 'WGS 84, north positive.'),
      longitudeDegrees: number([-180, 180], 'WGS 84, east positive.'),
      elevationFeet: orNull(number([-1500, 20_000], 'Above mean sea level; null takes the site\u2019s.')),
      weight: number([0, 1000], 'How much it counts beside the site\u2019s crowdWeight.'),
    }),
    [0, BOOKING_LENGTHS.viewingPlaces],
    'Other places where people look from; the text hangs for the weighted middle of all. May be missing.',
  ),
  () => [],
);

/** Who works on a job. */
export const CREW_SCHEMA = later(
  list(
    group({ name: freeName(), role: freeName('Pilot of two, observer, office.'), telephone: freeName() }),
    [0, BOOKING_LENGTHS.crew],
    'Who works on it. May be missing.',
  ),
  () => [],
);
