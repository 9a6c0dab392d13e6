import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openTextReader, type TextReader } from '../../flight/read-text.ts';
import { readerStop } from './reader-stops.ts';

/** Two words; `npm run show -- place` reads twenty in three shears, none of which had a part in setting the limits. */
describe('the end of reading, against an engine that reads and does not know the word', () => {
  let reader: TextReader;
  beforeAll(async () => {
    reader = await openTextReader();
  }, 60_000);
  afterAll(async () => {
    await reader.close();
  });

  test.each([
    ['YES', 0],
    ['WAX', 0.01],
  ])(
    '%s in a shear of %d per second',
    async (word, shearPerSecond) => {
      const { predictedSeconds, stoppedSeconds } = await readerStop(word, shearPerSecond, reader);
      if (stoppedSeconds === null) throw new Error('never read');
      expect(Math.abs(predictedSeconds / stoppedSeconds - 1)).toBeLessThan(0.25);
    },
    180_000,
  );
});
