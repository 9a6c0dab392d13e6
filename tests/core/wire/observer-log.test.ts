import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { GROUND_CALLS, LETTER_RATINGS } from '../../../src/core/wire/link-schemas.ts';
import { mergedObserverLogs, type ObserverEntry, type ObserverFact, type ObserverLog, standingEntries } from '../../../src/core/wire/observer-log.ts';
import { parseObserverLog, writeObserverLog } from '../../../src/core/wire/parse-observer-log.ts';

const AT = 1_800_000_000_000;
const LOG: ObserverLog = {
  format: 'quillwind-observer',
  version: 1,
  jobId: 'lake-ondine',
  jobDigest: null,
  observerId: 'o1',
  observerName: 'Pier',
  entries: [],
};
const entry = (sequence: number, fact: ObserverFact): ObserverEntry => ({ sequence, atMilliseconds: AT + sequence, sinceDatumSeconds: sequence, ...fact });
const note = (sequence: number): ObserverEntry => entry(sequence, { kind: 'noted', text: `note ${sequence}` });

const anyFact: fc.Arbitrary<ObserverFact> = fc.oneof(
  fc.record({
    kind: fc.constant('hack' as const),
    source: fc.constantFrom('radio' as const, 'link' as const, 'plan' as const),
    datumMilliseconds: fc.integer({ min: AT, max: AT + 1e9 }),
  }),
  fc.record({
    kind: fc.constant('rated' as const),
    letterIndex: fc.nat(99),
    character: fc.constantFrom('A', '\u00c9', '&'),
    rating: fc.constantFrom(...LETTER_RATINGS),
  }),
  fc.record({ kind: fc.constant('noted' as const), text: fc.stringMatching(/^[a-z][a-z \n]{0,40}[a-z]$/) }).filter(({ text }) => !/ \n/.test(text)),
  fc.record({ kind: fc.constant('called' as const), call: fc.constantFrom(...GROUND_CALLS), letterIndex: fc.constant(null), character: fc.constant(null) }),
  fc.record({ kind: fc.constant('hung' as const), figures: fc.constantFrom('098 224 0', null) }),
  fc.record({ kind: fc.constant('withdrawn' as const), withdrawnSequence: fc.nat(100) }),
);

describe('an observer\u2019s log', () => {
  it('survives the way to a file and back', () => {
    fc.assert(
      fc.property(fc.array(anyFact, { maxLength: 20 }), (facts) => {
        const log = { ...LOG, entries: facts.map((fact, index) => entry(index, fact)) };
        expect(parseObserverLog(writeObserverLog(log))).toEqual({ ok: true, value: log });
      }),
    );
  });

  it('cleans its texts and puts its entries in order', () => {
    const text = JSON.stringify({ ...LOG, observerName: 'Pi\u202Eer', entries: [note(2), { ...note(1), text: 'a\u202Eb' }] });
    expect(parseObserverLog(text)).toMatchObject({ ok: true, value: { observerName: 'Pier', entries: [{ sequence: 1, text: 'ab' }, { sequence: 2 }] } });
  });

  it.each([
    ['a job file', { format: 'quillwind-job', version: 1 }, /not an observer/],
    ['a newer version', { ...LOG, version: 2 }, /another version/],
    ['a sequence twice', { ...LOG, entries: [note(1), note(1)] }, /same sequence/],
    [
      'a rating that is none',
      { ...LOG, entries: [{ ...entry(0, { kind: 'rated', letterIndex: 0, character: 'A', rating: 'reads' }), rating: 'fine' }] },
      /entries\.0\.rating/,
    ],
    ['too many entries', { ...LOG, entries: Array(2001).fill(note(0)) }, /at most 2000/],
    ['an id that would not stand in a topic', { ...LOG, observerId: 'a/b' }, /observerId/],
  ])('is refused with %s', (_name, value, reason) => {
    expect(parseObserverLog(JSON.stringify(value))).toMatchObject({ ok: false, reason: expect.stringMatching(reason) });
  });

  it('leaves out what was withdrawn', () => {
    const entries = [note(0), note(1), entry(2, { kind: 'withdrawn', withdrawnSequence: 0 })];
    expect(standingEntries(entries).map(({ sequence }) => sequence)).toEqual([1]);
  });

  it('merges with a later reading of itself, each entry once', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(30)), fc.uniqueArray(fc.nat(30)), (one, other) => {
        const merged = mergedObserverLogs({ ...LOG, entries: one.map(note) }, { ...LOG, entries: other.map(note) });
        expect(merged.entries.map(({ sequence }) => sequence)).toEqual([...new Set([...one, ...other])].sort((first, second) => first - second));
      }),
    );
    expect(() => mergedObserverLogs(LOG, { ...LOG, observerId: 'o2' })).toThrow(RangeError);
  });
});
