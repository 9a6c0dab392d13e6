import { type ReadonlySignal, signal } from '@preact/signals';
import { withVersion } from '../../core/job/merge-jobs.ts';
import type { Database } from '../../store/database.ts';
import { dropVersion, type JobVersion, readVersions } from '../../store/job-versions.ts';
import { spoken } from './job-differences.ts';
import type { JobEditor } from './job-editor.ts';

/** A choice between two versions of some fields, as a person reads it. */
export interface VersionChoice {
  readonly version: JobVersion;
  /** As in `words`. */
  readonly name: string;
  readonly storedWords: string;
  readonly otherWords: string;
}

/** What two tabs typed into the same fields, until a person has chosen. */
export interface JobVersions {
  readonly choices: ReadonlySignal<readonly VersionChoice[]>;
  /** Reads them again; a store that does not answer leaves them as they were. */
  refresh(): Promise<void>;
  /** Leaves the job as it is stored. */
  keep(choice: VersionChoice): Promise<void>;
  /** Puts the other version into the job, as an edit that can be undone. */
  take(choice: VersionChoice): Promise<void>;
}

const SHOWN_CHARACTERS = 80;

export function createJobVersions(database: Database, jobId: string, editor: Pick<JobEditor, 'edit' | 'flush'>): JobVersions {
  const choices = signal<readonly VersionChoice[]>([]);
  const refresh = async (): Promise<void> => {
    const read = await readVersions(database, jobId).catch(() => null);
    if (read !== null) choices.value = read.map(choiceFrom);
  };
  const keep = async ({ version }: VersionChoice): Promise<void> => {
    choices.value = choices.peek().filter((each) => each.version !== version);
    await dropVersion(database, jobId, version).catch(() => {});
    await refresh();
  };
  return {
    choices,
    refresh,
    keep,
    async take(choice) {
      editor.edit(`the other version of ${choice.name}`, (job) => withVersion(job, choice.version.at, choice.version.ours));
      // Only once it is stored is the other one let go.
      await editor.flush();
      await keep(choice);
    },
  };
}

function choiceFrom(version: JobVersion): VersionChoice {
  const { at, ours, theirs } = version;
  const group = at.reduce<string>((path, key) => (typeof key === 'number' ? `${path}[${key}]` : `${path}${path === '' ? '' : '.'}${key}`), '');
  const names = Object.keys(ours)
    .filter((key) => key !== 'windsText')
    .map((key) => spoken(group === '' ? key : `${group}.${key}`));
  return { version, name: names.join(' and '), storedWords: shownFields(theirs), otherWords: shownFields(ours) };
}

function shownFields(fields: Readonly<Record<string, unknown>>): string {
  const values = Object.entries(fields).flatMap(([key, value]) => (key === 'windsText' ? [] : [shownValue(value)]));
  const words = values.join(', ');
  return words.length > SHOWN_CHARACTERS ? `${words.slice(0, SHOWN_CHARACTERS)}\u2026` : words;
}

function shownValue(value: unknown): string {
  if (value === null || value === '') return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return `${value.length} ${value.length === 1 ? 'entry' : 'entries'}`;
  if (typeof value === 'number') return value.toLocaleString('en-US', { maximumFractionDigits: 4 });
  return typeof value === 'string' ? value : 'other values';
}
