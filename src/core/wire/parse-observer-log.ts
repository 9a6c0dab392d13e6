import * as v from 'valibot';
import { issueWords } from '../text/issue-words.ts';
import { readJsonText } from '../text/json-text.ts';
import { inOrder } from '../text/walk-schema.ts';
import type { ObserverEntry, ObserverLog } from './observer-log.ts';
import { OBSERVER_ENTRY_SCHEMA, OBSERVER_LOG_SCHEMA } from './observer-log-schema.ts';

export type ObserverLogReading = { readonly ok: true; readonly value: ObserverLog } | { readonly ok: false; readonly reason: string };

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
  const result = v.safeParse(OBSERVER_LOG_SCHEMA, value, { abortEarly: true });
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
  const result = v.safeParse(OBSERVER_ENTRY_SCHEMA, value);
  return result.success ? result.output : null;
}

/** The log file's text: two spaces of indent, fields in the schema's order, a line feed at the end. */
export function writeObserverLog(log: ObserverLog): string {
  return `${JSON.stringify(inOrder(OBSERVER_LOG_SCHEMA, log), null, 2)}\n`;
}
