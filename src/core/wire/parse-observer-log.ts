import * as v from 'valibot';
import { cleanName } from '../text/clean-name.ts';
import { cleanText } from '../text/clean-text.ts';
import { readJsonText } from '../text/json-text.ts';
import { GROUND_CALLS, LETTER_RATINGS } from './link-messages.ts';
import { issueWords } from '../text/issue-words.ts';
import { OBSERVER_LIMITS, type ObserverEntry, type ObserverLog } from './observer-log.ts';

export type ObserverLogReading = { readonly ok: true; readonly value: ObserverLog } | { readonly ok: false; readonly reason: string };

const id = v.pipe(v.string(), v.regex(/^[A-Za-z0-9_-]{1,32}$/, 'is no id'));
const clockTime = v.pipe(v.number(), v.finite(), v.minValue(0), v.maxValue(4_102_444_800_000));
const sequence = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(1_000_000));
const letterIndex = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(99));
const character = v.pipe(
  v.string(),
  v.maxLength(16),
  v.transform(cleanName),
  v.transform((text) => [...text][0] ?? ''),
  v.minLength(1),
);

const common = {
  sequence,
  atMilliseconds: clockTime,
  sinceDatumSeconds: v.nullable(v.pipe(v.number(), v.finite(), v.minValue(-1e6), v.maxValue(1e6))),
};

const ENTRY_SCHEMA = v.variant('kind', [
  v.object({ ...common, kind: v.literal('hack'), source: v.picklist(['radio', 'link', 'plan']), datumMilliseconds: clockTime }),
  v.object({ ...common, kind: v.literal('rated'), letterIndex, character, rating: v.picklist(LETTER_RATINGS) }),
  v.object({
    ...common,
    kind: v.literal('noted'),
    text: v.pipe(
      v.string(),
      v.maxLength(20_000),
      v.transform((text) => cleanText(text, OBSERVER_LIMITS.noteCharacters)),
      v.minLength(1),
    ),
  }),
  v.object({
    ...common,
    kind: v.literal('called'),
    call: v.picklist(GROUND_CALLS),
    letterIndex: v.nullable(letterIndex),
    character: v.nullable(character),
  }),
  v.object({ ...common, kind: v.literal('withdrawn'), withdrawnSequence: sequence }),
]);

const LOG_SCHEMA = v.object({
  format: v.literal('quillwind-observer'),
  version: v.literal(1),
  jobId: id,
  jobDigest: v.nullable(v.pipe(v.string(), v.regex(/^[0-9a-f]{24}$/))),
  observerId: id,
  observerName: v.pipe(v.string(), v.maxLength(4000), v.transform(cleanName)),
  // The length is judged before the entries, so that a huge list costs nothing.
  entries: v.pipe(
    v.custom<unknown[]>((input) => Array.isArray(input) && input.length <= OBSERVER_LIMITS.entries, `must be a list of at most ${OBSERVER_LIMITS.entries}`),
    v.array(ENTRY_SCHEMA),
  ),
});

/**
 * An observer's log from its file's text: all or nothing, entries in order and each sequence once, or the reason in
 * words for whoever chose the file. Never throws. `writeObserverLog` is its inverse.
 */
export function parseObserverLog(fileText: unknown): ObserverLogReading {
  if (typeof fileText !== 'string') return { ok: false, reason: 'This is not an observer\u2019s log.' };
  const json = readJsonText(fileText);
  if (!json.ok) return json;
  const { value } = json;
  if (typeof value !== 'object' || value === null || !('format' in value) || value.format !== 'quillwind-observer') {
    return { ok: false, reason: 'This is not an observer\u2019s log: it does not begin with "format": "quillwind-observer".' };
  }
  if (!('version' in value) || value.version !== 1) {
    return { ok: false, reason: 'This log was written by another version of Quillwind. Update, then import it again.' };
  }
  const result = v.safeParse(LOG_SCHEMA, value, { abortEarly: true });
  if (!result.success) {
    const [issue] = result.issues;
    return { ok: false, reason: `This log cannot be taken as it is: ${v.getDotPath(issue) ?? 'the file'} ${issueWords(issue)}.` };
  }
  const entries = result.output.entries.toSorted((one, other) => one.sequence - other.sequence);
  if (entries.some(({ sequence: each }, index) => each === entries[index + 1]?.sequence)) {
    return { ok: false, reason: 'This log cannot be taken as it is: two entries have the same sequence.' };
  }
  return { ok: true, value: { ...result.output, entries } };
}

/** An entry that was stored on this device, by any version; null when it is none. */
export function observerEntryFromValue(value: unknown): ObserverEntry | null {
  const result = v.safeParse(ENTRY_SCHEMA, value);
  return result.success ? result.output : null;
}

/** The log file's text: two spaces of indent, a line feed at the end. */
export function writeObserverLog({ format, version, jobId, jobDigest, observerId, observerName, entries }: ObserverLog): string {
  return `${JSON.stringify({ format, version, jobId, jobDigest, observerId, observerName, entries }, null, 2)}\n`;
}
