import type { ReadonlyOf } from '../text/field-schemas.ts';
import type { OBSERVER_ENTRY_SCHEMA, OBSERVER_LOG_SCHEMA } from './observer-log-schema.ts';

/** What one observer wrote down of one job; `observer-log-schema.ts` says what each field means. */
export type ObserverLog = ReadonlyOf<typeof OBSERVER_LOG_SCHEMA>;
export type ObserverEntry = ReadonlyOf<typeof OBSERVER_ENTRY_SCHEMA>;
/** What was written down, before the log puts its count and its times to it. */
export type ObserverFact = WithoutTimes<ObserverEntry>;

type WithoutTimes<Entry> = Entry extends unknown ? Omit<Entry, 'sequence' | 'atMilliseconds' | 'sinceDatumSeconds'> : never;

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
