import { expect, it } from 'vitest';
import { seenWords } from '../../../src/ui/ground/ground-words.ts';
import { highWords } from '../../../src/ui/words/high-words.ts';

it('says of a text that has drifted below the horizon that it is not to be seen', () => {
  const said = (degrees: number): string => highWords((degrees * Math.PI) / 180) + seenWords(degrees);
  expect(said(34)).toBe('34° high, 3½ fists up at arm’s length');
  expect(said(1)).toBe('1° high, at the horizon at arm’s length');
  expect(said(-1)).toBe('below the horizon, not to be seen from here');
  expect(said(-0.2)).toBe('below the horizon, not to be seen from here');
});
