import { expect, it } from 'vitest';
import { flyWithReceiver } from '../show/anywhere-receiver.ts';

// A track is made of two fixes 0.8 s apart at least. Made of neighbours alone, none was made at more than one fix a second: no turn was
// seen, the doubt of stamps younger than a tablet's was never settled, and the pilot went round for ever without a smoke.
it.each([
  [10, 0.15],
  [5, 0.25],
  [2, 0.1],
])('a word is written with a receiver of one’s own: %i fixes a second, %f s old', async (rate, latencySeconds) => {
  const { read, finished } = await flyWithReceiver('SKY', { intervalSeconds: 1 / rate, latencySeconds });
  expect(finished).toBe(true);
  expect(read).toBe('SKY');
});
