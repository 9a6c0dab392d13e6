import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { processorMilliseconds } from '../processor-time.ts';
import { fc, SEED } from '../property.ts';
import { describe, expect, it } from 'vitest';
import { createJobShelf } from '../../src/app/jobs/job-shelf.ts';
import { DEMO_JOB } from '../../src/core/job/demo-job.ts';
import { writeJob } from '../../src/core/job/write-job.ts';
import { createDatabase } from '../../src/store/database.ts';
import { mutated } from './mutated.ts';
import { PARSERS, type Parsed } from './parsers.ts';

/** A hundred thousand in the nightly run, about two minutes of every run otherwise spent elsewhere. */
const CASES = Number(process.env['QUILLWIND_FUZZ'] ?? 1500);
const LONGEST_MILLISECONDS = 2000;
/** What a machine says to a programmer, and nobody to a pilot. */
const RAW = /undefined|\[object|TypeError|RangeError|SyntaxError|Cannot read|is not a function|is not iterable|Maximum call stack|NaN\b.*expected|\bat \S+:\d+/;

/** The path of a number that is none; null when all are finite. */
function notFinite(value: unknown, path = ''): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : path;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, each] of Object.entries(value)) {
    const found = notFinite(each, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

function judge(parsed: Parsed, milliseconds: number): 'taken' | 'refused' {
  expect(milliseconds).toBeLessThan(LONGEST_MILLISECONDS);
  if (parsed.ok) {
    expect(notFinite(parsed.value)).toBeNull();
    return 'taken';
  }
  if ('reason' in parsed) {
    expect(parsed.reason.length).toBeGreaterThan(5);
    expect(parsed.reason).not.toMatch(RAW);
  }
  return 'refused';
}

describe.each(PARSERS)('$name', ({ name, valid, parse }) => {
  it('takes its valid files', () => {
    for (const text of valid) expect(parse(text).ok, text.slice(0, 80)).toBe(true);
  });

  it(`answers ${CASES} broken and hostile ones in words, at once, and gives back no number that is none`, { timeout: 7_200_000 }, () => {
    const counts = { taken: 0, refused: 0 };
    let slowest = 0;
    fc.assert(
      fc.property(mutated(valid), (text) => {
        const startedAt = processorMilliseconds();
        const parsed = parse(text);
        const milliseconds = processorMilliseconds() - startedAt;
        slowest = Math.max(slowest, milliseconds);
        counts[judge(parsed, milliseconds)] += 1;
      }),
      { numRuns: CASES, seed: SEED },
    );
    // A harness that only ever meets one answer finds nothing.
    expect(counts.taken).toBeGreaterThan(0);
    expect(counts.refused).toBeGreaterThan(name === 'stored rows' ? 0 : CASES / 50);
    process.stdout.write(
      `      ${name}: ${counts.taken + counts.refused} cases, ${counts.taken} taken, ${counts.refused} refused, slowest ${slowest.toFixed(0)} ms (seed ${SEED})\n`,
    );
  });
});

describe('the store', () => {
  it('is changed by no job file that is refused, and by a taken one only beside what is there', { timeout: 7_200_000 }, async () => {
    globalThis.indexedDB = new IDBFactory();
    const database = createDatabase();
    const shelf = createJobShelf(database, () => 1);
    await shelf.refresh();
    const mine = writeJob(DEMO_JOB);
    const stored = (): Promise<readonly unknown[]> => database.transact(['jobs'], 'readonly', (transaction) => transaction.objectStore('jobs').getAll());
    await fc.assert(
      fc.asyncProperty(mutated([mine]), async (text) => {
        const before = await stored();
        await shelf.importFiles([new File([text], 'from-a-friend.json')]);
        const after = await stored();
        const notice = shelf.notice.peek();
        if (notice?.kind !== 'imported') expect(after).toEqual(before);
        else expect(after).toEqual(expect.arrayContaining([...before]));
        // Kept small, or a long run measures the store.
        if (after.length > 5) await database.transact(['jobs'], 'readwrite', (transaction) => transaction.objectStore('jobs').clear());
      }),
      { numRuns: Math.ceil(CASES / 10), seed: SEED },
    );
  });
});
