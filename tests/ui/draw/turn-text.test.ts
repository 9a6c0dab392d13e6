import { expect, test } from 'vitest';
import { turnText } from '../../../src/ui/draw/turn-text.ts';

test('says which way a word leans and from when it is read worse', () => {
  expect(turnText(0.4)).toBe('Its line lies level from here.');
  expect(turnText(5.8)).toBe('Its line rises to the right by 6° from here.');
  expect(turnText(-14)).toBe('Its line falls to the right by 14° from here: beyond 6° a word is read worse.');
  expect(turnText(170)).toContain('from behind');
});
