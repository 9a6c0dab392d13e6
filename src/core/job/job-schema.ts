import * as v from 'valibot';
import { BOOKING_LENGTHS, BOOKING_SCHEMA, CREW_SCHEMA, VIEWING_PLACES_SCHEMA } from './booking-schema.ts';
import { HANDS } from '../letters/hand.ts';
import { DRAWINGS_SCHEMA } from './drawing-schema.ts';
import { cleanName, NAME_LENGTH } from '../text/clean-name.ts';
import {
  bearing,
  choice,
  freeCleanedText,
  freeName,
  group,
  id,
  later,
  type Limits,
  lines,
  list,
  name,
  number,
  orNull,
  pattern,
  utcTime,
  wholeNumber,
  yesOrNo,
} from '../text/field-schemas.ts';

/** The longest lists and texts of the job file. */
export const JOB_LENGTHS = {
  winds: 60,
  ships: 9,
  frequencies: 20,
  clouds: 8,
  namedPoints: 10,
  windsTextCharacters: 20_000,
  notesCharacters: 4000,
} as const;

const ALTITUDE: Limits = [-1500, 60_000];
const TEMPERATURE: Limits = [-100, 60];

const cloud = v.pipe(
  group({
    baseFeet: number(ALTITUDE, 'Above mean sea level.'),
    topFeet: orNull(number(ALTITUDE, 'Above mean sea level, not below the base; null when it is not reported.')),
    oktas: wholeNumber([1, 8], 'eighths', 'Eighths of the sky covered.'),
  }),
  v.forward(
    v.check(({ baseFeet, topFeet }) => topFeet === null || topFeet >= baseFeet, 'must not lie below the base'),
    ['topFeet'],
  ),
);

const wind = group({
  altitudeFeet: number(ALTITUDE, 'Above mean sea level.'),
  fromDegreesTrue: orNull(bearing('Where it blows from; null for light and variable: a wind of unknown direction under 5 kt.')),
  speedKnots: number([0, 250]),
  temperatureCelsius: orNull(number(TEMPERATURE, 'Null when the bulletin gives none.')),
});

const conditions = group(
  {
    visibilityStatuteMiles: orNull(number([0.1, 100], 'Null when nobody has looked.')),
    clouds: orNull(list(cloud, [0, JOB_LENGTHS.clouds], 'Null when nobody has looked; an empty list is a clear sky.')),
    altimeterHectopascals: later(orNull(number([850, 1100], 'The altimeter setting of the place, QNH; null or missing when nobody has said.')), null),
  },
  'What was looked up on the day. May be missing.',
);

const winds = list(wind, [0, JOB_LENGTHS.winds], 'Winds aloft.');

/** Winds, temperatures and clouds as they were foretold for one hour. */
const forecast = group({
  validTime: utcTime('For which hour.'),
  issuedTime: orNull(utcTime('When it was made; null when nobody has said.')),
  source: freeName('Where it is from.'),
  winds,
  conditions,
});

const WEIGHT = [0, 20_000] as const;
const ARM = [-1000, 1000] as const;

/** The pilot's own figures: this app knows no aircraft. */
const balance = group({
  emptyPounds: number(WEIGHT),
  emptyArmInches: number(ARM),
  pilotPounds: number(WEIGHT, 'Everyone and everything on board but fuel and smoke oil.'),
  pilotArmInches: number(ARM),
  fuelPoundsPerGallon: number([4, 9]),
  fuelArmInches: number(ARM),
  oilArmInches: number(ARM),
  forwardLimitInches: number(ARM),
  aftLimitInches: number(ARM),
  greatestPounds: number(WEIGHT),
});

/** One aircraft of a job; a kept one is stored alike. */
export const SHIP_SCHEMA = v.pipe(
  group({
    name: name('As called on the radio.'),
    trueAirspeedKnots: number([30, 400]),
    writingBankDegrees: number([5, 75]),
    turningBankDegrees: number([5, 75]),
    maximumBankDegrees: number([5, 80], 'What corrections in flight may use at most.'),
    rollRateDegreesPerSecond: number([1, 360]),
    smokeOilPounds: number([0, 5000]),
    smokeOilPoundsPerMinute: number([0.1, 200]),
    fuelGallons: number([0, 2000], 'US gallons.'),
    fuelGallonsPerHour: number([0.1, 500]),
    fuelReserveMinutes: number([0, 240]),
    otherFlyingMinutes: later(
      orNull(number([0, 600], 'Flying before the first smoke and after the last: climb, transit, join-up, return. Null or missing when nobody has said.')),
      null,
    ),
    valveOnSeconds: number([0, 30], 'From the switch to smoke.'),
    valveOffSeconds: number([0, 30], 'From the switch to the end of the smoke.'),
    reactionSeconds: number([0, 10], 'Between reading a cue and acting on it.'),
    keptId: later(orNull(id('Which kept ship it is a copy of; null or missing for none.')), null),
    oilKind: later(freeName('Of the smoke oil; empty where nobody has said.'), ''),
    oilPoundsPerGallon: later(orNull(number([4, 12], 'Density of the smoke oil, US gallons. Null or missing when nobody has said.')), null),
    smokeTankGallons: later(orNull(number([0, 1000], 'How much the smoke tank holds, US gallons.')), null),
    climbFeetPerMinute: later(orNull(number([50, 10_000], 'With the smoke tank full.')), null),
    bingoFuelGallons: later(orNull(number([0, 2000], 'With so much left the ship goes home, US gallons.')), null),
    balance: later(orNull(balance), null),
  }),
  v.forward(
    v.check(
      ({ writingBankDegrees, turningBankDegrees, maximumBankDegrees }) => maximumBankDegrees >= Math.max(writingBankDegrees, turningBankDegrees),
      'must be at least the writing and the turning bank',
    ),
    ['maximumBankDegrees'],
  ),
);

const point = group({
  name: name(),
  latitudeDegrees: number([-90, 90], 'WGS 84, north positive.'),
  longitudeDegrees: number([-180, 180], 'WGS 84, east positive.'),
});

/**
 * The job file, `{"format": "quillwind-job", "version": 1}`: everything one booking needs offline, told once. The type,
 * the reader, the writer, the limits of the forms and `public/quillwind-job.schema.json` all come from here. It speaks
 * the pilot's units, spelled in the field names. The limits keep the arithmetic sound and catch a slipped digit; they
 * do not say what is wise to fly. Each field is checked and copied by name; anything else in a file is left behind.
 */
export const JOB_SCHEMA = v.pipe(
  group(
    {
      format: v.literal('quillwind-job'),
      version: v.literal(1),
      id: id('Made once; never shown in place of the name.'),
      demo: later(yesOrNo('Invented values for trying the app: marked on every screen and sheet, and not to be flown.'), false),
      notEntered: later(
        list(
          pattern(/^[A-Za-z.]{1,60}$/, 'must be the path of a field'),
          [0, 60],
          'Paths of fields that nobody has entered: what stands there is not known and is printed nowhere.',
        ),
        () => [],
      ),
      name: name('What the booking is called.'),
      text: freeCleanedText(cleanWriting, 'What is to be written, in one line or in several separated by line feeds; empty where nobody has said.'),
      site: group({
        name: freeName('Where the crowd stands; empty where nobody has said.'),
        latitudeDegrees: number([-85, 85], 'WGS 84, north positive.'),
        longitudeDegrees: number([-180, 180], 'WGS 84, east positive.'),
        elevationFeet: number([-1500, 20_000], 'Above mean sea level.'),
        timeZone: pattern(/^[A-Za-z0-9_+/-]{1,60}$/, 'must be the name of a time zone, such as Europe/Zurich', 'IANA name, for local times.'),
        crowdFacingDegreesTrue: later(
          orNull(bearing('Where the crowd faces of itself, to a stage or a shore; null, and absent in older files, when it does not matter.')),
          null,
        ),
        variationByHand: later(
          orNull(
            group({
              eastDegrees: number([-180, 180], 'Magnetic variation, east positive.'),
              ofTime: utcTime('Of which day it is.'),
              always: yesOrNo('Used always; otherwise only where the built-in model ends.'),
            }),
          ),
          null,
        ),
        crowdWeight: later(number([0, 1000], 'How much the site counts beside other viewing places.'), 1),
      }),
      facingDegreesTrue: bearing('Azimuth the crowd looks, clockwise from true north.'),
      viewElevationDegrees: number([5, 90], 'How high above the crowd\u2019s horizon the text\u2019s middle hangs at the read time.'),
      readTime: utcTime('When the text should be read: RFC 3339, UTC, ending in Z.'),
      layer: group(
        {
          altitudeFeet: number([500, 45_000], 'Above mean sea level.'),
          temperatureCelsius: orNull(number(TEMPERATURE, 'Null takes it from the winds, or from the standard atmosphere.')),
        },
        'The air that is written in.',
      ),
      letters: group({
        heightFeet: number([100, 20_000]),
        spacingHeights: number([0, 5], 'Gap between letters over their height.'),
        depthStretch: number([1, 2], 'Depth over height, to even the proportions at a slant; 1 leaves the letters as drawn.'),
      }),
      drawings: later(DRAWINGS_SCHEMA, () => []),
      winds,
      windsText: lines(JOB_LENGTHS.windsTextCharacters, 'The bulletin as pasted; empty when the rows were typed. Kept up to 20,000 characters.'),
      ships: list(SHIP_SCHEMA, [1, JOB_LENGTHS.ships], 'The aircraft, lead first.'),
      options: group({
        letterOrder: choice(['reading', 'free']),
        progress: choice(['into-wind', 'free']),
        hand: later(
          choice(HANDS, 'How the letters are drawn. Files from before hands had `corners`: crisp ones open as capitals, all others as round capitals.'),
          'round-capitals',
        ),
        runInSeconds: number([0, 60], 'Wings level before the smoke.'),
        runOutSeconds: number([0, 60], 'Wings level after the smoke.'),
        separationFeet: number([0, 20_000], 'Least distance between ships.'),
        heightStepFeet: later(number([0, 2000], 'Each ship writes this much higher than the one before it.'), 0),
        joinUpStepFeet: later(
          number(
            [300, 3000],
            'Ships of a formation join, wait and leave off the layer: the lead this much below, two this much above, three twice as much below.',
          ),
          500,
        ),
        longestUnfinishedSeconds: later(number([10, 3600], 'How long a letter may stay half-written when strokes may be written in any order.'), 300),
        sunOffNose: later(yesOrNo('Whether strokes are rather flown so that a low sun is off the nose.'), false),
      }),
      frequencies: list(group({ use: freeName('What it is for; empty where nobody has said.'), megahertz: number([0.1, 3000]) }), [0, JOB_LENGTHS.frequencies]),
      knockItOffWords: freeName('What is called when everyone stops.'),
      conditions: later(conditions, () => ({ visibilityStatuteMiles: null, clouds: null, altimeterHectopascals: null })),
      namedPoints: later(
        list(point, [0, JOB_LENGTHS.namedPoints], 'Places found from the air, from which the first smoke is told by bearing and distance. May be missing.'),
        () => [],
      ),
      booking: BOOKING_SCHEMA,
      viewingPlaces: VIEWING_PLACES_SCHEMA,
      crew: CREW_SCHEMA,
      forecasts: later(
        list(
          forecast,
          [0, BOOKING_LENGTHS.forecasts],
          'Winds and clouds of several hours, each with where it is from; the job is planned with \u201cwinds\u201d. May be missing.',
        ),
        () => [],
      ),
      notes: lines(JOB_LENGTHS.notesCharacters, 'Free text, kept up to 4,000 characters.'),
    },
    'One booking of sky writing, with everything needed to plan and fly it offline. Units are spelled in the field names. Unknown fields are ignored. A file is at most 1 MB and nested at most 32 levels. Beyond what a schema can say: maximumBankDegrees is at least the writing and the turning bank, the layer lies above the site, a cloud\u2019s top is not below its base, readTime is a date of the calendar; names are normalised (NFC), stripped of control, format and bidirectional characters and cut to 60 characters.',
  ),
  v.forward(
    v.check(({ layer, site }) => layer.altitudeFeet > site.elevationFeet, 'must be above the site'),
    ['layer', 'altitudeFeet'],
  ),
);

/** The words to write: lines cleaned as names are, empty ones dropped, 60 characters together. */
function cleanWriting(written: string): string {
  const cleaned = written
    .split(/\r\n|\r|\n/)
    .map(cleanName)
    .filter((line) => line !== '');
  return [...cleaned.join('\n')].slice(0, NAME_LENGTH).join('').trim();
}
