import { describe, expect, it } from 'vitest';
import { EMPTY_LEDGER, received } from '../../src/link/event-ledger.ts';
import { createGapWatch } from '../../src/link/gap-watch.ts';

describe('the watch for gaps', () => {
  it('leaves what is on its way a moment, then asks, and again while it is missing', () => {
    const watch = createGapWatch(() => 0);
    watch.known({ device: 'lead', boot: 'b', count: 3 });
    const { ledger } = received(EMPTY_LEDGER, 'lead', 'b', 1);
    expect(watch.due(ledger, 0)).toEqual([]);
    expect(watch.due(ledger, 900)).toEqual([]);
    const questions = [
      { device: 'lead', boot: 'b', fromSequence: 0, toSequence: 0 },
      { device: 'lead', boot: 'b', fromSequence: 2, toSequence: 2 },
    ];
    expect(watch.due(ledger, 1000)).toEqual(questions);
    expect(watch.due(ledger, 2000)).toEqual([]);
    expect(watch.due(ledger, 4000)).toEqual(questions);
    expect(watch.missingCount(ledger)).toBe(2);
  });

  it('asks for nothing that came meanwhile, and is not fooled into forgetting by a lower count', () => {
    const watch = createGapWatch(() => 0);
    watch.known({ device: 'lead', boot: 'b', count: 2 });
    watch.known({ device: 'lead', boot: 'b', count: 1 });
    let ledger = received(EMPTY_LEDGER, 'lead', 'b', 0).ledger;
    expect(watch.missingCount(ledger)).toBe(1);
    watch.due(ledger, 0);
    ({ ledger } = received(ledger, 'lead', 'b', 1));
    expect(watch.due(ledger, 5000)).toEqual([]);
  });
});
