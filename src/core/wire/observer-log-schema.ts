import * as v from 'valibot';
import { cleanText } from '../text/clean-text.ts';
import { choice, cleanedText, freeName, group, id, list, number, orNull, wholeNumber } from '../text/field-schemas.ts';
import { character, digest, GROUND_CALLS, hangingFigures, LETTER_RATINGS, letterIndex } from './link-schemas.ts';

/** The longest note, in UTF-16 units, and the most entries of one log. */
export const OBSERVER_LIMITS = { noteCharacters: 500, entries: 2000 } as const;

const LAST_MILLISECONDS = 4_102_444_800_000;

/** The most that two clock times can lie apart: a note can be written years from the first smoke, and must be read again. */
export const SINCE_DATUM_LIMIT_SECONDS = LAST_MILLISECONDS / 1000;

const clockTime = number([0, LAST_MILLISECONDS], 'Milliseconds since 1970 UTC by the observer\u2019s clock, which may be wrong.');
const sequence = wholeNumber([0, 1_000_000], 'entries', '0, 1, 2 ... within the log.');

const common = {
  sequence,
  atMilliseconds: clockTime,
  sinceDatumSeconds: orNull(
    number(
      [-SINCE_DATUM_LIMIT_SECONDS, SINCE_DATUM_LIMIT_SECONDS],
      'By the time hack, counted on a clock that cannot be set; null before one was taken. The debrief goes by this.',
    ),
  ),
};

/** One thing an observer wrote down. */
export const OBSERVER_ENTRY_SCHEMA = v.variant('kind', [
  group(
    { ...common, kind: v.literal('hack'), source: choice(['radio', 'link', 'plan']), datumMilliseconds: clockTime },
    'The clock was started: the datum, by the observer\u2019s clock.',
  ),
  group(
    { ...common, kind: v.literal('hung'), figures: orNull(hangingFigures) },
    'The word was hung by three figures heard on the radio; null: as briefed after all.',
  ),
  group({ ...common, kind: v.literal('rated'), letterIndex, character, rating: choice(LETTER_RATINGS) }),
  group({
    ...common,
    kind: v.literal('noted'),
    text: v.pipe(
      v.string(),
      v.maxLength(20_000),
      cleanedText((text) => cleanText(text, OBSERVER_LIMITS.noteCharacters)),
    ),
  }),
  group({ ...common, kind: v.literal('called'), call: choice(GROUND_CALLS), letterIndex: orNull(letterIndex), character: orNull(character) }),
  group({ ...common, kind: v.literal('withdrawn'), withdrawnSequence: sequence }),
]);

/**
 * What one observer wrote down of one job, `{"format": "quillwind-observer", "version": 1}`: kept on the observer's
 * device and carried to the debrief as a file. Entries are only added, never changed; one that was wrong is withdrawn
 * by a later one.
 */
export const OBSERVER_LOG_SCHEMA = group({
  format: v.literal('quillwind-observer'),
  version: v.literal(1),
  jobId: id(),
  jobDigest: orNull(digest),
  observerId: id('Made once for this log. Entries are one with those of the same observer and sequence.'),
  observerName: v.pipe(v.string(), v.maxLength(4000), freeName()),
  entries: list(OBSERVER_ENTRY_SCHEMA, [0, OBSERVER_LIMITS.entries]),
});
