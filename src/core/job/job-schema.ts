import * as v from 'valibot';
import { cleanName, NAME_LENGTH } from '../text/clean-name.ts';
import { cleanText } from '../text/clean-text.ts';
import { JOB_LENGTHS, JOB_LIMITS, type Limits } from './job-limits.ts';
import { millisecondsFromRfc3339 } from '../text/utc.ts';

const ID = /^[A-Za-z0-9_-]{1,32}$/;
/** RFC 3339 with Z, to the second or to the millisecond. */
const UTC = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z$/;

const number = ([least, greatest]: Limits) => {
  const message = ({ input }: { readonly input: unknown }): string => `must be a number from ${least} to ${greatest}; it is ${shown(input)}`;
  return v.pipe(
    v.number(message),
    v.finite(message),
    v.minValue(least, message),
    v.maxValue(greatest, message),
    // JSON writes a negative zero as 0, so it would not survive a round trip.
    v.transform((value) => value + 0),
  );
};

const bearing = (limits: Limits) =>
  v.pipe(
    number(limits),
    v.transform((degrees) => degrees % 360),
  );

const text = () => v.string(({ input }) => `must be text in quotes; it is ${shown(input)}`);

/** A name that is still there after cleaning. */
const name = () => v.pipe(text(), v.transform(cleanName), v.minLength(1, 'is empty; write at least one letter'));

/** The words to write: lines cleaned as names are, empty ones dropped, 60 characters together. */
const writing = () => v.pipe(text(), v.transform(cleanWriting), v.minLength(1, 'is empty; write at least one letter'));

/** A name that may be left empty. */
const freeName = () => v.pipe(text(), v.transform(cleanName));

const lines = (lengthLimit: number) =>
  v.pipe(
    text(),
    v.transform((written) => cleanText(written, lengthLimit)),
  );

const list = <Item extends v.GenericSchema>(item: Item, least: number, greatest: number) => {
  const message = ({ input }: { readonly input: unknown }): string =>
    `must be a list of ${least} to ${greatest}; it ${Array.isArray(input) ? `has ${input.length}` : `is ${shown(input)}`}`;
  // The length is judged before the items, so that a huge list costs nothing.
  return v.pipe(
    v.custom<unknown[]>((input) => Array.isArray(input) && input.length >= least && input.length <= greatest, message),
    v.array(item),
  );
};

const yesOrNo = () => v.boolean(({ input }) => `must be true or false; it is ${shown(input)}`);

const choice = <const Options extends readonly string[]>(options: Options) =>
  v.picklist(options, ({ input }) => `must be one of ${options.join(', ')}; it is ${shown(input)}`);

const group = <Entries extends v.ObjectEntries>(entries: Entries) =>
  v.object(entries, ({ input, received }) =>
    input === undefined || received === 'undefined' ? 'is missing' : `must be a group of fields in braces; it is ${shown(input)}`,
  );

const orNull = <Schema extends v.GenericSchema>(schema: Schema) => v.nullable(schema);

/** Fields that files written before they were thought of do not have, and what is taken then. */
const LATER = {
  crowdFacingDegreesTrue: null,
  otherFlyingMinutes: null,
  conditions: () => ({ visibilityStatuteMiles: null, clouds: null }),
  namedPoints: () => [],
};

const cloud = v.pipe(
  group({
    baseFeet: number(JOB_LIMITS.cloud.baseFeet),
    topFeet: orNull(number(JOB_LIMITS.cloud.topFeet)),
    oktas: v.pipe(
      number(JOB_LIMITS.cloud.oktas),
      v.integer(({ input }) => `must be a whole number of eighths; it is ${shown(input)}`),
    ),
  }),
  v.forward(
    v.check(({ baseFeet, topFeet }) => topFeet === null || topFeet >= baseFeet, 'must not lie below the base'),
    ['topFeet'],
  ),
);

const ship = v.pipe(
  group({
    name: name(),
    trueAirspeedKnots: number(JOB_LIMITS.ship.trueAirspeedKnots),
    writingBankDegrees: number(JOB_LIMITS.ship.writingBankDegrees),
    turningBankDegrees: number(JOB_LIMITS.ship.turningBankDegrees),
    maximumBankDegrees: number(JOB_LIMITS.ship.maximumBankDegrees),
    rollRateDegreesPerSecond: number(JOB_LIMITS.ship.rollRateDegreesPerSecond),
    smokeOilPounds: number(JOB_LIMITS.ship.smokeOilPounds),
    smokeOilPoundsPerMinute: number(JOB_LIMITS.ship.smokeOilPoundsPerMinute),
    fuelGallons: number(JOB_LIMITS.ship.fuelGallons),
    fuelGallonsPerHour: number(JOB_LIMITS.ship.fuelGallonsPerHour),
    fuelReserveMinutes: number(JOB_LIMITS.ship.fuelReserveMinutes),
    otherFlyingMinutes: v.optional(orNull(number(JOB_LIMITS.ship.otherFlyingMinutes)), LATER.otherFlyingMinutes),
    valveOnSeconds: number(JOB_LIMITS.ship.valveOnSeconds),
    valveOffSeconds: number(JOB_LIMITS.ship.valveOffSeconds),
    reactionSeconds: number(JOB_LIMITS.ship.reactionSeconds),
  }),
  v.forward(
    v.check(
      ({ writingBankDegrees, turningBankDegrees, maximumBankDegrees }) => maximumBankDegrees >= Math.max(writingBankDegrees, turningBankDegrees),
      'must be at least the writing and the turning bank',
    ),
    ['maximumBankDegrees'],
  ),
);

/** The job file's fields, each checked and copied by name; anything else in the file is left behind. */
export const JOB_SCHEMA = v.pipe(
  group({
    format: v.literal('quillwind-job'),
    version: v.literal(1),
    id: v.pipe(text(), v.regex(ID, 'must be 1 to 32 letters, digits, - or _')),
    name: name(),
    text: writing(),
    site: group({
      name: name(),
      latitudeDegrees: number(JOB_LIMITS.site.latitudeDegrees),
      longitudeDegrees: number(JOB_LIMITS.site.longitudeDegrees),
      elevationFeet: number(JOB_LIMITS.site.elevationFeet),
      timeZone: v.pipe(text(), v.regex(/^[A-Za-z0-9_+/-]{1,60}$/, 'must be the name of a time zone, such as Europe/Zurich')),
      crowdFacingDegreesTrue: v.optional(orNull(bearing(JOB_LIMITS.site.crowdFacingDegreesTrue)), LATER.crowdFacingDegreesTrue),
    }),
    facingDegreesTrue: bearing(JOB_LIMITS.facingDegreesTrue),
    viewElevationDegrees: number(JOB_LIMITS.viewElevationDegrees),
    readTime: v.pipe(
      text(),
      v.check((written) => UTC.test(written) && millisecondsFromRfc3339(written) !== null, 'must be a date and time in UTC, such as 2027-06-19T13:30:00Z'),
    ),
    layer: group({
      altitudeFeet: number(JOB_LIMITS.layer.altitudeFeet),
      temperatureCelsius: orNull(number(JOB_LIMITS.layer.temperatureCelsius)),
    }),
    letters: group({
      heightFeet: number(JOB_LIMITS.letters.heightFeet),
      spacingHeights: number(JOB_LIMITS.letters.spacingHeights),
      depthStretch: number(JOB_LIMITS.letters.depthStretch),
    }),
    winds: list(
      group({
        altitudeFeet: number(JOB_LIMITS.wind.altitudeFeet),
        fromDegreesTrue: orNull(bearing(JOB_LIMITS.wind.fromDegreesTrue)),
        speedKnots: number(JOB_LIMITS.wind.speedKnots),
        temperatureCelsius: orNull(number(JOB_LIMITS.wind.temperatureCelsius)),
      }),
      0,
      JOB_LENGTHS.winds,
    ),
    windsText: lines(JOB_LENGTHS.windsTextCharacters),
    ships: list(ship, 1, JOB_LENGTHS.ships),
    options: group({
      letterOrder: choice(['reading', 'free']),
      progress: choice(['into-wind', 'free']),
      corners: choice(['crisp', 'rounded', 'best']),
      runInSeconds: number(JOB_LIMITS.options.runInSeconds),
      runOutSeconds: number(JOB_LIMITS.options.runOutSeconds),
      separationFeet: number(JOB_LIMITS.options.separationFeet),
      // Files written before these fields were known mean what was then done.
      heightStepFeet: v.optional(number(JOB_LIMITS.options.heightStepFeet), 0),
      longestUnfinishedSeconds: v.optional(number(JOB_LIMITS.options.longestUnfinishedSeconds), 300),
      sunOffNose: v.optional(yesOrNo(), false),
    }),
    frequencies: list(group({ use: name(), megahertz: number(JOB_LIMITS.frequency.megahertz) }), 0, JOB_LENGTHS.frequencies),
    knockItOffWords: freeName(),
    conditions: v.optional(
      group({
        visibilityStatuteMiles: orNull(number(JOB_LIMITS.conditions.visibilityStatuteMiles)),
        clouds: orNull(list(cloud, 0, JOB_LENGTHS.clouds)),
      }),
      LATER.conditions,
    ),
    namedPoints: v.optional(
      list(
        group({ name: name(), latitudeDegrees: number(JOB_LIMITS.point.latitudeDegrees), longitudeDegrees: number(JOB_LIMITS.point.longitudeDegrees) }),
        0,
        JOB_LENGTHS.namedPoints,
      ),
      LATER.namedPoints,
    ),
    notes: lines(JOB_LENGTHS.notesCharacters),
  }),
  v.forward(
    v.check(({ layer, site }) => layer.altitudeFeet > site.elevationFeet, 'must be above the site'),
    ['layer', 'altitudeFeet'],
  ),
);

function cleanWriting(written: string): string {
  const cleaned = written
    .split(/\r\n|\r|\n/)
    .map(cleanName)
    .filter((line) => line !== '');
  return [...cleaned.join('\n')].slice(0, NAME_LENGTH).join('').trim();
}

/** A value from outside, short and without what could hide or turn the sentence around it. */
function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'string') return `“${cleanName(value).slice(0, 24)}”`;
  if (typeof value === 'number' || typeof value === 'boolean' || value === null) return String(value);
  return Array.isArray(value) ? 'a list' : 'a group of fields';
}
