import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import type { JobsState } from '../../../src/app/jobs/shelf-types.ts';
import { watchLostJobs } from '../../../src/app/jobs/lost-jobs.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';

const ready = (...ids: readonly string[]): JobsState => ({ kind: 'ready', jobs: ids.map((id) => ({ ...DEMO_JOB, id, name: `Job ${id}` })), damaged: [] });
const loading: JobsState = { kind: 'loading' };

function notes(): Pick<Storage, 'getItem' | 'setItem'> {
  const held = new Map<string, string>();
  return { getItem: (key) => held.get(key) ?? null, setItem: (key, value) => void held.set(key, value) };
}

function visit(storage: () => Pick<Storage, 'getItem' | 'setItem'>, ...states: readonly JobsState[]) {
  const state = signal<JobsState>(loading);
  const watch = watchLostJobs(state, storage);
  for (const next of states) state.value = next;
  return watch;
}

describe('lost jobs', () => {
  it('are those of the last visit that are gone at the next, named until they are acknowledged', () => {
    const storage = notes();
    expect(visit(() => storage, ready('a', 'b', 'c')).lost.value).toEqual([]);
    expect(visit(() => storage, ready('b')).lost.value.map(({ name }) => name)).toEqual(['Job a', 'Job c']);
    const again = visit(() => storage, ready('b'));
    expect(again.lost.value).toHaveLength(2);
    again.acknowledge();
    expect(visit(() => storage, ready('b')).lost.value).toEqual([]);
  });

  it('are not those that a person deleted, nor any while the store has not answered', () => {
    const storage = notes();
    visit(() => storage, ready('a', 'b'), ready('a'));
    expect(visit(() => storage, { kind: 'failed', reason: 'no' }).lost.value).toEqual([]);
    expect(visit(() => storage, ready('a')).lost.value).toEqual([]);
  });

  it('are unknown, and nothing breaks, where the notes are damaged or refused', () => {
    expect(visit(() => ({ getItem: () => '{"a":', setItem: () => {} }), ready('a')).lost.value).toEqual([]);
    expect(visit(() => ({ getItem: () => '[{"id":1},null,7]', setItem: () => {} }), ready('a')).lost.value).toEqual([]);
    const refusing = (): never => {
      throw new DOMException('refused', 'SecurityError');
    };
    expect(visit(refusing, ready('a')).lost.value).toEqual([]);
  });
});
