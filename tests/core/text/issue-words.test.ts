import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { issueWords } from '../../../src/core/text/issue-words.ts';

const wordsOf = (schema: v.GenericSchema, input: unknown): string => {
  const result = v.safeParse(schema, input);
  if (result.success) throw new Error('it was taken');
  return issueWords(result.issues[0]);
};

describe('words about a field', () => {
  it.each([
    [v.object({ type: v.literal('Feature') }), {}, 'is missing'],
    [v.number(), 'noon', 'must be a number; it is "noon"'],
    [v.array(v.number()), null, 'must be a list; it is empty'],
    [v.picklist(['on', 'off']), 7, 'must be "on" or "off"; it is 7'],
    [v.string(), { a: 1 }, 'must be text; it is a group of fields in braces'],
    [v.pipe(v.number(), v.maxValue(3, 'must be at most 3')), 4, 'must be at most 3'],
    [v.number(), 'x'.repeat(500), `must be a number; it is "${'x'.repeat(59)}…`],
  ] as const)('are plain: %#', (schema, input, words) => {
    expect(wordsOf(schema, input)).toBe(words);
  });
});
