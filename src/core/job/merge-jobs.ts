import type { Job } from './job.ts';
import { jobFromValue } from './parse-job.ts';

/** What two editors made otherwise of the same fields, which no machine can settle. */
export interface JobConflict {
  /** Where the fields lie: the keys that lead to their group, none for the job itself. */
  readonly at: readonly (string | number)[];
  /** The fields by key: as they were, and as each has them. */
  readonly before: Readonly<Record<string, unknown>>;
  readonly ours: Readonly<Record<string, unknown>>;
  readonly theirs: Readonly<Record<string, unknown>>;
}

export interface JobMerge {
  /** Everything that only one of the two changed, as changed; where both did, as theirs. */
  readonly job: Job;
  readonly conflicts: readonly JobConflict[];
}

type Group = Readonly<Record<string, unknown>>;
type Path = readonly (string | number)[];

/** Fields that mean something only beside each other: half of one and half of the other would be a third thing. */
const TOGETHER: Readonly<Record<string, readonly (readonly string[])[]>> = {
  '': [['winds', 'windsText']],
  site: [['latitudeDegrees', 'longitudeDegrees']],
};

/**
 * Two edits of one job put together, field by field: `ours` and `theirs` were both made from `base`. Lists count as
 * one field, since their places shift, except the ships of an equal number. A field that both changed, differently,
 * stays as in `theirs` and is named. Whether it is a job that may be stored is another question: a bank of one and the
 * limit of the other may not fit. The same object as `theirs` where nothing of ours is new.
 */
export function mergeJobs(base: Job, ours: Job, theirs: Job): JobMerge {
  const conflicts: JobConflict[] = [];
  return { job: mergedGroup(base, ours, theirs, [], conflicts) as Job, conflicts };
}

/** The same for what is stored: where the two together would be no job any more, theirs stays and all of ours is named. */
export function mergeWholeJobs(base: Job, ours: Job, theirs: Job): JobMerge {
  const merge = mergeJobs(base, ours, theirs);
  if (merge.job === theirs || jobFromValue(merge.job).ok) return merge;
  const keys = Object.keys(ours).filter((key) => !isAlike(read(ours, key), read(base, key)) && !isAlike(read(ours, key), read(theirs, key)));
  const conflicts = keys.map((key) => ({ at: [], before: picked(base, [key]), ours: picked(ours, [key]), theirs: picked(theirs, [key]) }));
  return { job: theirs, conflicts };
}

/** As much of a job as can be stored: each of its parts that is at fault is taken from `base`. The job itself where none is. */
export function wholePartOf(job: Job, base: Job): Job {
  const reading = jobFromValue(job);
  if (reading.ok) return job;
  const keys = new Set(reading.faults.map(({ path }) => /^\w*/.exec(path)?.[0] ?? ''));
  const part = {
    ...job,
    ...picked(
      base,
      [...keys].filter((key) => key in base),
    ),
  };
  return jobFromValue(part).ok ? part : base;
}

/** The job with the fields of one side of a conflict; the same object when there is no such place in it any more. */
export function withVersion(job: Job, at: Path, fields: Group): Job {
  return put(job, at, fields) as Job;
}

function put(value: unknown, at: Path, fields: Group): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const [key, ...rest] = at;
  if (key === undefined) return { ...value, ...fields };
  if (!(key in value)) return value;
  const inner = put(read(value, key), rest, fields);
  if (Array.isArray(value)) return value.map((each: unknown, index) => (index === key ? inner : each));
  return { ...value, [key]: inner };
}

function mergedGroup(base: Group, ours: Group, theirs: Group, at: Path, conflicts: JobConflict[]): Group {
  const path = at.join('.');
  const taken: Record<string, unknown> = {};
  for (const keys of fieldsOf(ours, theirs, TOGETHER[path] ?? [])) {
    for (const [key, value] of Object.entries(mergedFields(base, ours, theirs, keys, at, conflicts))) if (value !== read(theirs, key)) taken[key] = value;
  }
  return Object.keys(taken).length === 0 ? theirs : { ...theirs, ...taken };
}

/** The fields of a group, one by one or in the sets that belong together. */
function fieldsOf(ours: Group, theirs: Group, together: readonly (readonly string[])[]): (readonly string[])[] {
  const grouped = new Set(together.flat());
  return [...together, ...[...new Set([...Object.keys(theirs), ...Object.keys(ours)])].filter((key) => !grouped.has(key)).map((key) => [key])];
}

function mergedFields(base: Group, ours: Group, theirs: Group, keys: readonly string[], at: Path, conflicts: JobConflict[]): Group {
  const all = (test: (key: string) => boolean): boolean => keys.every(test);
  if (all((key) => isAlike(read(ours, key), read(base, key)))) return picked(theirs, keys);
  if (all((key) => isAlike(read(theirs, key), read(base, key)) || isAlike(read(theirs, key), read(ours, key)))) {
    if (all((key) => isAlike(read(theirs, key), read(ours, key)))) return picked(theirs, keys);
    return picked(ours, keys);
  }
  const [key = ''] = keys;
  const [before, here, there] = [read(base, key), read(ours, key), read(theirs, key)];
  if (keys.length === 1) {
    if (key === 'notEntered') return { [key]: mergedSet(before, here, there) };
    if (isGroup(before) && isGroup(here) && isGroup(there)) return { [key]: mergedGroup(before, here, there, [...at, key], conflicts) };
    if (key === 'ships' && areGroups(before) && areGroups(here) && areGroups(there) && before.length === here.length && here.length === there.length) {
      return { [key]: there.map((each, index) => mergedGroup(before[index]!, here[index]!, each, [...at, key, index], conflicts)) };
    }
  }
  conflicts.push({ at, before: picked(base, keys), ours: picked(ours, keys), theirs: picked(theirs, keys) });
  return picked(theirs, keys);
}

/** What both still have, and what either put in. */
function mergedSet(base: unknown, ours: unknown, theirs: unknown): unknown {
  const [before, here, there] = [base, ours, theirs].map((each) => (Array.isArray(each) ? (each as unknown[]) : []));
  return [...new Set([...there!, ...here!])].filter((each) => (before!.includes(each) ? here!.includes(each) && there!.includes(each) : true));
}

function areGroups(value: unknown): value is readonly Group[] {
  return Array.isArray(value) && value.every(isGroup);
}

function isGroup(value: unknown): value is Group {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function read(value: object, key: string | number): unknown {
  return (value as Readonly<Record<string | number, unknown>>)[key];
}

function picked(group: Group, keys: readonly string[]): Group {
  return Object.fromEntries(keys.map((key) => [key, group[key]]));
}

/** Whether two values would be written alike. Fields of one job stand in one order, or are compared by name. */
function isAlike(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (Array.isArray(one) && Array.isArray(other)) return one.length === other.length && one.every((each, index) => isAlike(each, other[index]));
  if (!isGroup(one) || !isGroup(other)) return false;
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => key in other && isAlike(one[key], other[key]));
}
