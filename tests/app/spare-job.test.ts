import { describe, expect, it } from 'vitest';
import { askAgain } from '../../src/app/ask-again.ts';
import { keepSpare, readSpare } from '../../src/app/jobs/spare-job.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';

function drawer(): { readonly storage: () => Pick<Storage, 'getItem' | 'setItem'>; readonly map: Map<string, string> } {
  const map = new Map<string, string>();
  return { map, storage: () => ({ getItem: (key) => map.get(key) ?? null, setItem: (key, value) => void map.set(key, value) }) };
}

describe('the spare copy of a job', () => {
  it('is the one that was opened last, with its moment; three are kept', () => {
    const { storage } = drawer();
    for (const [index, id] of ['a', 'b', 'c', 'd'].entries()) keepSpare(storage, { ...DEMO_JOB, id }, index);
    keepSpare(storage, { ...DEMO_JOB, id: 'b', text: 'NEWER' }, 9);
    expect(readSpare(storage, 'b')).toEqual({ job: { ...DEMO_JOB, id: 'b', text: 'NEWER' }, keptMilliseconds: 9 });
    expect(readSpare(storage, 'd')?.keptMilliseconds).toBe(3);
    expect(readSpare(storage, 'a')).toBeNull();
  });

  it('is none when it is damaged or another\u2019s', () => {
    const { storage, map } = drawer();
    expect(readSpare(storage, 'a')).toBeNull();
    keepSpare(storage, DEMO_JOB, 1);
    const [[key = '', text = ''] = []] = map;
    map.set(key, text.replace(DEMO_JOB.id, 'other'));
    expect(readSpare(storage, 'other')).toBeNull();
    map.set(key, text.slice(0, -40));
    expect(readSpare(storage, DEMO_JOB.id)).toBeNull();
    expect(
      readSpare(() => {
        throw new DOMException('', 'SecurityError');
      }, 'a'),
    ).toBeNull();
  });
});

it('a question is asked again with growing waits until it is answered', async () => {
  const waits: number[] = [];
  let asked = 0;
  await askAgain(
    async () => (asked += 1) === 8,
    (call, milliseconds) => {
      waits.push(milliseconds);
      call();
    },
  );
  expect(waits).toEqual([1000, 2000, 4000, 8000, 15_000, 15_000, 15_000]);
});
