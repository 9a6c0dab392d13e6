import * as v from 'valibot';
import type { Hand } from '../letters/hand.ts';
import type { Job } from './job.ts';
import { JOB_SCHEMA } from './job-schema.ts';
import { readJsonText } from '../text/json-text.ts';

/** A field that cannot be taken. */
export interface JobFault {
  /** As in `ships[0].trueAirspeedKnots`; empty for the file as a whole. */
  readonly path: string;
  /** As in `must be a number from 30 to 400; it is 4000`. */
  readonly message: string;
}

export type JobReading =
  | { readonly ok: true; readonly value: Job }
  | {
      readonly ok: false;
      /** One or a few sentences for the person who chose the file. */
      readonly reason: string;
      /** Every field at fault; empty when the file as a whole is. */
      readonly faults: readonly JobFault[];
    };

const FAULTS_NAMED = 3;

/**
 * A job from a job file's text. All or nothing: a fresh object of the known fields with names cleaned (NFC, no
 * control or bidi characters, 60 characters), or the reasons. Never throws. `writeJob` is its inverse.
 */
export function parseJob(fileText: unknown): JobReading {
  if (typeof fileText !== 'string') return { ok: false, reason: 'This is not a job file.', faults: [] };
  const json = readJsonText(fileText);
  if (!json.ok) return { ...json, faults: [] };
  const { value } = json;
  if (typeof value !== 'object' || value === null || !('format' in value) || value.format !== 'quillwind-job') {
    return { ok: false, reason: 'This is not a job file: it does not begin with "format": "quillwind-job".', faults: [] };
  }
  if (!('version' in value) || value.version !== 1) return { ok: false, reason: versionReason('version' in value ? value.version : undefined), faults: [] };
  return jobFromValue(value);
}

/** A job from a value that may hold one, such as a form's; checked and copied as {@link parseJob} does. */
export function jobFromValue(value: unknown): JobReading {
  const result = v.safeParse(JOB_SCHEMA, withHand(value));
  if (result.success) return { ok: true, value: result.output };
  const faults = result.issues.map((issue) => ({ path: pathOf(issue), message: messageOf(issue) }));
  return { ok: false, reason: reasonFrom(faults), faults };
}

/** Older files say `corners` where there are hands now: crisp corners are capitals, all else takes the usual hand. */
function withHand(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || !('options' in value)) return value;
  const { options } = value;
  if (typeof options !== 'object' || options === null || 'hand' in options || !('corners' in options) || options.corners !== 'crisp') return value;
  return { ...value, options: { ...options, hand: 'capitals' satisfies Hand } };
}

function reasonFrom(faults: readonly JobFault[]): string {
  const named = faults.slice(0, FAULTS_NAMED).map(({ path, message }) => `${path} ${message}.`);
  const more = faults.length - named.length;
  return `This job cannot be taken as it is: ${named.join(' ')}${more > 0 ? ` And ${more} more.` : ''}`;
}

function versionReason(version: unknown): string {
  return typeof version === 'number' && version > 1
    ? 'This job file was written by a newer version of Quillwind. Update, then import it again.'
    : 'This job file does not say which version it is ("version": 1).';
}

function pathOf(issue: v.BaseIssue<unknown>): string {
  const keys = issue.path?.map(({ key }) => key) ?? [];
  return keys.reduce<string>((path, key) => (typeof key === 'number' ? `${path}[${key}]` : `${path}${path === '' ? '' : '.'}${String(key)}`), '');
}

function messageOf(issue: v.BaseIssue<unknown>): string {
  // Fields that are not there are reported by the group around them, in the library's own words.
  return issue.kind === 'schema' && issue.input === undefined ? 'is missing' : issue.message;
}
