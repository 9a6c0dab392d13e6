import { expect, test } from 'vitest';
import { leadTimeWords } from '../../../src/ui/write/lead-time-words.ts';
import { after, twoOnCircle } from '../../flight/two-on-circle.ts';

const two = twoOnCircle();

test('a lead with another datum is told with what can be done, until the pilot has done it', () => {
  expect(leadTimeWords(two)).toBeNull();
  const apart = after(two, { kind: 'leadTimed', laterSeconds: -25.3 });
  const offered = leadTimeWords(apart)!;
  expect(offered.words).toBe('Your time is 25 s behind lead’s');
  const [take, keep] = offered.touches;
  expect([take!.label, keep!.label]).toEqual(['Use lead’s time', 'Keep mine']);
  const taken = after(apart, take!.fact);
  expect(taken.flight.datumAtSeconds! - two.flight.datumAtSeconds!).toBeCloseTo(-25.3, 2);
  expect([taken.flight.formation!.leadTimed, leadTimeWords(taken)]).toEqual([null, null]);
  const kept = after(apart, keep!.fact);
  expect(kept.flight.datumAtSeconds).toBe(two.flight.datumAtSeconds);
  expect(leadTimeWords(kept)).toBeNull();
  // The lead presses anew: that is another time, and is told again.
  expect(leadTimeWords(after(kept, { kind: 'leadTimed', laterSeconds: 300 }))!.words).toBe('Your time is 5:00 min ahead of lead’s');
});
