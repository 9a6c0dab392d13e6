import { expect, it } from 'vitest';
import { wordJob } from '../../../e2e/flight/fly-word.ts';
import { flyJob } from '../../flight/job-flight.ts';

/** What a flight of SKY showed of a pilot's turns by its end. */
function handsAfter(reactionSeconds: number): { readonly turnReactionSeconds: number; readonly turnShare: number } {
  const { finalState } = flyJob(wordJob('SKY'), 21, 10, { reactionSeconds });
  if (finalState.phase === 'idle') throw new Error('no flight');
  return finalState.flight.hands;
}

it('learns how late a pilot answers: 0.3 and 1.3 s are told apart by 0.6 s at least, and each is met within 0.6 s', { timeout: 60_000 }, () => {
  const [quick, slow] = [handsAfter(0.3), handsAfter(1.3)];
  expect(slow.turnReactionSeconds - quick.turnReactionSeconds).toBeGreaterThan(0.6);
  expect(Math.abs(quick.turnReactionSeconds - 0.3)).toBeLessThan(0.6);
  expect(Math.abs(slow.turnReactionSeconds - 1.3)).toBeLessThan(0.6);
});
