import type { Flight } from '../guidance-state.ts';

/** "Smoke on" and "smoke off" take 0.57 s to say, and an ear answers 0.35 s later than an eye that counts along. */
const SAID_SECONDS = 0.9;

/**
 * Seconds that the smoke is cued ahead of when the hand is to have moved: the hand's own, and for a pilot who only listens
 * the word's.
 */
export function smokeLeadSeconds({ reactionSeconds, byEar }: Pick<Flight, 'reactionSeconds' | 'byEar'>): number {
  return byEar ? reactionSeconds + SAID_SECONDS : reactionSeconds;
}
