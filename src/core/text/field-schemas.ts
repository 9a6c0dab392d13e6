import * as v from 'valibot';
import { cleanName } from './clean-name.ts';
import { cleanText } from './clean-text.ts';
import { millisecondsFromRfc3339 } from './utc.ts';

/** Least and greatest value a number may have, both allowed. */
export type Limits = readonly [least: number, greatest: number];

/** What a field says of itself, for forms, for the published JSON Schema and for tests that fill it. */
export type FieldMetadata = Readonly<{
  about: string;
  /** What the published JSON Schema (draft 2020-12) says of it beside the description. */
  json: Readonly<Record<string, unknown>>;
}>;

/** Every field schema of a file is one of these: checked, cleaned, and able to say what it takes. */
const told = <Input>(about: string, json: FieldMetadata['json']) => v.metadata<Input, FieldMetadata>({ about, json });

/** A finite number within limits, both allowed. */
export const number = (limits: Limits, about = '') => {
  const [least, greatest] = limits;
  const message = ({ input }: { readonly input: unknown }): string => `must be a number from ${least} to ${greatest}; it is ${shown(input)}`;
  return v.pipe(
    v.number(message),
    v.finite(message),
    v.minValue(least, message),
    v.maxValue(greatest, message),
    // JSON writes a negative zero as 0, so it would not survive a round trip.
    v.transform((value) => value + 0),
    told(about, { type: 'number', minimum: least, maximum: greatest }),
  );
};

/** A bearing in degrees, 0 to 360 taken, 0 to under 360 kept. */
export const bearing = (about = '') =>
  v.pipe(
    number([0, 360]),
    v.transform((degrees) => degrees % 360),
    told(about, { type: 'number', minimum: 0, maximum: 360 }),
  );

/** A whole number within limits, of a thing: `eighths`. */
export const wholeNumber = (limits: Limits, things: string, about = '') =>
  v.pipe(
    number(limits),
    v.integer(({ input }) => `must be a whole number of ${things}; it is ${shown(input)}`),
    told(about, { type: 'integer', minimum: limits[0], maximum: limits[1] }),
  );

const text = () => v.string(({ input }) => `must be text in quotes; it is ${shown(input)}`);

/** At least one character that is seen. */
const SEEN = '[^\\p{Cc}\\p{Cf}\\p{Cs}\\p{Z}]';
const EMPTY = 'is empty; write at least one letter';

/** A name that is still there after cleaning. */
export const name = (about = '') => v.pipe(text(), v.transform(cleanName), v.minLength(1, EMPTY), told(about, { type: 'string', pattern: SEEN }));

/** A name that may be left empty. */
export const freeName = (about = '') => v.pipe(text(), v.transform(cleanName), told(about, { type: 'string' }));

/** Text cleaned by a rule of its own, of which something must be left. */
export const cleanedText = (clean: (written: string) => string, about = '') =>
  v.pipe(text(), v.transform(clean), v.minLength(1, EMPTY), told(about, { type: 'string', pattern: SEEN }));

/** The same, which may be left empty. */
export const freeCleanedText = (clean: (written: string) => string, about = '') => v.pipe(text(), v.transform(clean), told(about, { type: 'string' }));

/** Free text of several lines, cut to a length in UTF-16 units. */
export const lines = (lengthLimit: number, about = '') =>
  v.pipe(
    text(),
    v.transform((written) => cleanText(written, lengthLimit)),
    told(about, { type: 'string' }),
  );

/** Text of a given form, with what it must be in words. */
export const pattern = (form: RegExp, message: string, about = '') =>
  v.pipe(text(), v.regex(form, message), told(about, { type: 'string', pattern: form.source }));

/** An id that is safe in addresses, topics and file names. */
export const id = (about = '') => pattern(/^[A-Za-z0-9_-]{1,32}$/, 'must be 1 to 32 letters, digits, - or _', about);

/** RFC 3339 with Z, to the second or to the millisecond, and a day of the calendar. */
export const utcTime = (about = '') =>
  v.pipe(
    text(),
    v.check((written) => UTC.test(written) && millisecondsFromRfc3339(written) !== null, 'must be a date and time in UTC, such as 2027-06-19T13:30:00Z'),
    told(about, { type: 'string', pattern: UTC.source, format: 'date-time' }),
  );

const UTC = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z$/;

/** A list of `least` to `greatest` items. Its length is judged before the items, so that a huge list costs nothing. */
export const list = <Item extends v.GenericSchema>(item: Item, [least, greatest]: Limits, about = '') => {
  const message = ({ input }: { readonly input: unknown }): string =>
    `must be a list of ${least > 0 ? `${least} to` : 'at most'} ${greatest}; it ${Array.isArray(input) ? `has ${input.length}` : `is ${shown(input)}`}`;
  return v.pipe(
    v.custom<unknown[]>((input) => Array.isArray(input) && input.length >= least && input.length <= greatest, message),
    v.array(item),
    told(about, { type: 'array', ...(least > 0 ? { minItems: least } : {}), maxItems: greatest }),
  );
};

/** True or false. */
export const yesOrNo = (about = '') =>
  v.pipe(
    v.boolean(({ input }) => `must be true or false; it is ${shown(input)}`),
    told(about, { type: 'boolean' }),
  );

/** One of a few words. */
export const choice = <const Options extends readonly string[]>(options: Options, about = '') =>
  v.pipe(
    v.picklist(options, ({ input }) => `must be one of ${options.join(', ')}; it is ${shown(input)}`),
    told(about, { enum: options }),
  );

/** Fields by name, each checked and copied; anything else is left behind. */
export const group = <Entries extends v.ObjectEntries>(entries: Entries, about = '') =>
  v.pipe(
    v.object(entries, ({ input, received }) =>
      input === undefined || received === 'undefined' ? 'is missing' : `must be a group of fields in braces; it is ${shown(input)}`,
    ),
    told(about, { type: 'object' }),
  );

/** The same, or null for what nobody has said. */
export const orNull = <Schema extends v.GenericSchema>(schema: Schema) => v.nullable(schema);

/** A field that older files do not have, and what is taken then. */
export const later = <Schema extends v.GenericSchema, const Value extends v.Default<Schema, undefined>>(schema: Schema, value: Value) =>
  v.optional(schema, value);

/** What a schema yields, all the way down not to be changed. */
export type ReadonlyOf<Schema extends v.GenericSchema> = DeepReadonly<v.InferOutput<Schema>>;

type DeepReadonly<Value> = Value extends readonly (infer Item)[]
  ? readonly DeepReadonly<Item>[]
  : Value extends object
    ? { readonly [Key in keyof Value]: DeepReadonly<Value[Key]> }
    : Value;

/** A value from outside, short and without what could hide or turn the sentence around it. */
function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'string') return `\u201c${cleanName(value).slice(0, 24)}\u201d`;
  if (typeof value === 'number' || typeof value === 'boolean' || value === null) return String(value);
  return Array.isArray(value) ? 'a list' : 'a group of fields';
}
