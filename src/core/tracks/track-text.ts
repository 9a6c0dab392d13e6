import { type ReadResult, TRACK_TEXT_LIMIT_BYTES } from './track.ts';

/** The text of a track file, or why it is not opened at all: not text, empty, or over 48 MB. A byte order mark is taken off. */
export function trackTextFrom(input: unknown): ReadResult<string> {
  if (typeof input !== 'string') return { ok: false, reason: 'A track file is text; this is not.' };
  if (input.length > TRACK_TEXT_LIMIT_BYTES) return { ok: false, reason: tooLargeReason(input.length) };
  // A long run of spaces is cheap to see past, a copy of the text without them is not.
  if (!/\S/.test(input)) return { ok: false, reason: 'The file is empty.' };
  return { ok: true, value: input.startsWith('\uFEFF') ? input.slice(1) : input };
}

/** Why a file of so many bytes is not opened. */
export function tooLargeReason(lengthBytes: number): string {
  return `The file is ${Math.ceil(lengthBytes / 1e6)} MB; more than ${TRACK_TEXT_LIMIT_BYTES / 1e6} MB cannot be read here. Split it by flight.`;
}
