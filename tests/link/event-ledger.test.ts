import { fc } from '../property.ts';
import { describe, expect, it } from 'vitest';
import { EMPTY_LEDGER, type EventLedger, missingOf, received } from '../../src/link/event-ledger.ts';

function after(sequences: readonly number[]): EventLedger {
  return sequences.reduce((ledger, sequence) => received(ledger, 'lead', 'boot', sequence).ledger, EMPTY_LEDGER);
}

describe('the ledger of events', () => {
  it('names what is missing: after 0, 1 and 4 of 6', () => {
    expect(missingOf(after([0, 1, 4]), 'lead', 'boot', 6)).toEqual([
      { fromSequence: 2, toSequence: 3 },
      { fromSequence: 5, toSequence: 5 },
    ]);
  });

  it('counts each event once, in whatever order and however often it comes', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 40 }), { maxLength: 120 }), (sequences) => {
        let ledger = EMPTY_LEDGER;
        const fresh: number[] = [];
        for (const sequence of sequences) {
          const next = received(ledger, 'lead', 'boot', sequence);
          if (next.verdict === 'new') fresh.push(sequence);
          ({ ledger } = next);
        }
        expect(fresh.toSorted((one, other) => one - other)).toEqual([...new Set(sequences)].sort((one, other) => one - other));
        const missing = missingOf(ledger, 'lead', 'boot', 41).flatMap(({ fromSequence, toSequence }) =>
          Array.from({ length: toSequence - fromSequence + 1 }, (_, index) => fromSequence + index),
        );
        expect(missing).toEqual(Array.from({ length: 41 }, (_, index) => index).filter((sequence) => !sequences.includes(sequence)));
      }),
    );
  });

  it('keeps devices and boots apart', () => {
    const { ledger } = received(after([0]), 'two', 'boot', 0);
    expect(received(ledger, 'lead', 'other', 0).verdict).toBe('new');
    expect(received(ledger, 'two', 'boot', 0).verdict).toBe('again');
  });

  it('has a bound that only a hostile sender reaches', () => {
    let ledger = EMPTY_LEDGER;
    for (let boot = 0; boot < 1000; boot += 1) ({ ledger } = received(ledger, 'evil', `b${boot}`, 0));
    expect(received(ledger, 'evil', 'one-more', 0).verdict).toBe('refused');
    expect(received(ledger, 'evil', 'b7', 1).verdict).toBe('new');
  });
});
