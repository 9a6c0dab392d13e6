import type { GroundCall, LetterRating } from './link-messages.ts';

/**
 * What one observer wrote down of one job, `{"format": "quillwind-observer", "version": 1}`: kept on the observer's
 * device and carried to the debrief as a file. Entries are only added, never changed; one that was wrong is withdrawn
 * by a later one.
 */
export interface ObserverLog {
  readonly format: 'quillwind-observer';
  readonly version: 1;
  readonly jobId: string;
  /** First 24 hexadecimal digits of the job file's SHA-256 when the log was begun; null where it could not be computed. */
  readonly jobDigest: string | null;
  /** `[A-Za-z0-9_-]{1,32}`, made once for this log. Entries are one with those of the same observer and sequence. */
  readonly observerId: string;
  readonly observerName: string;
  readonly entries: readonly ObserverEntry[];
}

export type ObserverEntry = {
  /** 0, 1, 2 ... within the log. */
  readonly sequence: number;
  /** By the observer's clock, which may be wrong. */
  readonly atMilliseconds: number;
  /** By the time hack, counted on a clock that cannot be set; null before one was taken. The debrief goes by this. */
  readonly sinceDatumSeconds: number | null;
} & ObserverFact;

export type ObserverFact =
  /** The clock was started: the datum, by the observer's clock. */
  | { readonly kind: 'hack'; readonly source: 'radio' | 'link' | 'plan'; readonly datumMilliseconds: number }
  | { readonly kind: 'rated'; readonly letterIndex: number; readonly character: string; readonly rating: LetterRating }
  | { readonly kind: 'noted'; readonly text: string }
  | { readonly kind: 'called'; readonly call: GroundCall; readonly letterIndex: number | null; readonly character: string | null }
  | { readonly kind: 'withdrawn'; readonly withdrawnSequence: number };

/** The longest note, in UTF-16 units, and the most entries of one log. */
export const OBSERVER_LIMITS = { noteCharacters: 500, entries: 2000 } as const;

/** The entries that stand: in order, without those withdrawn and without the withdrawals. */
export function standingEntries(entries: readonly ObserverEntry[]): ObserverEntry[] {
  const withdrawn = new Set(entries.flatMap((entry) => (entry.kind === 'withdrawn' ? [entry.withdrawnSequence] : [])));
  return entries.filter(({ kind, sequence }) => kind !== 'withdrawn' && !withdrawn.has(sequence));
}

/**
 * Two readings of the same log made one, each entry once, in order of sequence. Where both have an entry the first
 * one's stands: a log is only added to, so they agree.
 *
 * @throws RangeError for logs of different observers or jobs
 */
export function mergedObserverLogs(one: ObserverLog, other: ObserverLog): ObserverLog {
  if (one.observerId !== other.observerId || one.jobId !== other.jobId) {
    throw new RangeError(`logs of ${one.observerId} for ${one.jobId} and of ${other.observerId} for ${other.jobId} are not one`);
  }
  const known = new Set(one.entries.map(({ sequence }) => sequence));
  const entries = [...one.entries, ...other.entries.filter(({ sequence }) => !known.has(sequence))];
  return { ...one, entries: entries.sort((first, second) => first.sequence - second.sequence) };
}
