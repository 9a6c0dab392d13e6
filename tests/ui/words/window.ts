import type { ReadingWindow } from '../../../src/core/sky/reading-window.ts';

/** Reads from 5:20, soonest until 12:20, and leans from 10:57. */
export const WINDOW: ReadingWindow = {
  letters: [],
  fromSeconds: 320,
  until: { lowSeconds: 740, likelySeconds: 1_300, highSeconds: 2_300 },
  stands: { fromSeconds: 320, untilSeconds: 657, endedBy: 'leaning' },
  first: null,
};
