import fc from 'fast-check';
import { cleanName } from '../../../src/core/text/clean-name.ts';
import { cleanText } from '../../../src/core/text/clean-text.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { JOB_LIMITS, type Limits } from '../../../src/core/job/job-limits.ts';

const within = ([least, greatest]: Limits) => fc.double({ min: least, max: greatest, noNaN: true }).map((value) => value + 0);
const bearing = () => fc.double({ min: 0, max: 359.999, noNaN: true }).map((value) => value + 0);
const name = () =>
  fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 80 })
    .map(cleanName)
    .filter((text) => text !== '' && cleanName(text) === text);
const lines = () =>
  fc
    .string({ unit: 'grapheme', maxLength: 300 })
    .map((text) => cleanText(text, 4000))
    .filter((text) => cleanText(text, 4000) === text);
const group = <Fields extends Record<string, Limits>>(limits: Fields) =>
  fc.record(Object.fromEntries(Object.entries(limits).map(([key, range]) => [key, within(range)])), { noNullPrototype: true }) as fc.Arbitrary<{
    [Key in keyof Fields]: number;
  }>;

/** Any job that a job file can hold. */
export function anyJob(): fc.Arbitrary<Job> {
  const ship = fc.tuple(name(), group(JOB_LIMITS.ship), fc.option(within(JOB_LIMITS.ship.otherFlyingMinutes))).map(([called, values, otherFlyingMinutes]) => ({
    name: called,
    ...values,
    otherFlyingMinutes,
    maximumBankDegrees: Math.max(values.maximumBankDegrees, values.writingBankDegrees, values.turningBankDegrees),
  }));
  const cloud = fc
    .record(
      { baseFeet: within(JOB_LIMITS.cloud.baseFeet), topFeet: fc.option(within(JOB_LIMITS.cloud.topFeet)), oktas: fc.integer({ min: 1, max: 8 }) },
      { noNullPrototype: true },
    )
    .map((each) => (each.topFeet === null ? each : { ...each, topFeet: Math.max(each.baseFeet, each.topFeet) }));
  return fc
    .record(
      {
        format: fc.constant('quillwind-job' as const),
        version: fc.constant(1 as const),
        id: fc.stringMatching(/^[A-Za-z0-9_-]{1,32}$/),
        name: name(),
        text: fc.oneof(name(), fc.constant('GO\nSAIL')),
        site: fc
          .tuple(name(), group(JOB_LIMITS.site), fc.option(bearing()))
          .map(([called, values, crowdFacingDegreesTrue]) => ({ name: called, ...values, timeZone: 'America/New_York', crowdFacingDegreesTrue })),
        facingDegreesTrue: bearing(),
        viewElevationDegrees: within(JOB_LIMITS.viewElevationDegrees),
        readTime: fc.date({ min: new Date(0), max: new Date('2099-12-31T00:00:00Z'), noInvalidDate: true }).map((date) => date.toISOString()),
        layer: fc.record(
          { altitudeFeet: within(JOB_LIMITS.layer.altitudeFeet), temperatureCelsius: fc.option(within(JOB_LIMITS.layer.temperatureCelsius)) },
          { noNullPrototype: true },
        ),
        letters: group(JOB_LIMITS.letters),
        winds: fc.array(
          fc.record(
            {
              altitudeFeet: within(JOB_LIMITS.wind.altitudeFeet),
              fromDegreesTrue: fc.option(bearing()),
              speedKnots: within(JOB_LIMITS.wind.speedKnots),
              temperatureCelsius: fc.option(within(JOB_LIMITS.wind.temperatureCelsius)),
            },
            { noNullPrototype: true },
          ),
          { maxLength: 6 },
        ),
        windsText: lines(),
        ships: fc.array(ship, { minLength: 1, maxLength: 4 }),
        options: fc
          .tuple(
            fc.constantFrom('reading' as const, 'free' as const),
            fc.constantFrom('into-wind' as const, 'free' as const),
            fc.constantFrom('crisp' as const, 'rounded' as const, 'best' as const),
            group(JOB_LIMITS.options),
            fc.boolean(),
          )
          .map(([letterOrder, progress, corners, values, sunOffNose]) => ({ letterOrder, progress, corners, ...values, sunOffNose })),
        frequencies: fc.array(fc.record({ use: name(), megahertz: within(JOB_LIMITS.frequency.megahertz) }, { noNullPrototype: true }), { maxLength: 4 }),
        knockItOffWords: fc.oneof(fc.constant(''), name()),
        conditions: fc.record(
          { visibilityStatuteMiles: fc.option(within(JOB_LIMITS.conditions.visibilityStatuteMiles)), clouds: fc.option(fc.array(cloud, { maxLength: 3 })) },
          { noNullPrototype: true },
        ),
        namedPoints: fc.array(
          fc.tuple(name(), group(JOB_LIMITS.point)).map(([called, values]) => ({ name: called, ...values })),
          { maxLength: 3 },
        ),
        notes: lines(),
      },
      { noNullPrototype: true },
    )
    .filter((job) => job.layer.altitudeFeet > job.site.elevationFeet);
}
