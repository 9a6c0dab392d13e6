import type { BaseIssue } from 'valibot';

const KINDS: Readonly<Record<string, string>> = {
  Object: 'a group of fields in braces',
  Array: 'a list',
  string: 'text',
  number: 'a number',
  boolean: 'true or false',
  null: 'empty',
};
const LONGEST = 60;

/**
 * What is wrong with a field, for a person: `is missing`, or `must be a number; it is "noon"`. Words that a schema has
 * of its own pass as they are; those of the library are put in plain ones.
 */
export function issueWords({ message, expected, received, input }: Pick<BaseIssue<unknown>, 'message' | 'expected' | 'received' | 'input'>): string {
  if (!message.startsWith('Invalid ')) return message;
  if (input === undefined || received === 'undefined') return 'is missing';
  const wanted = expected === null ? 'something else' : (KINDS[expected] ?? expected.replace(/^\((.*)\)$/, '$1').replaceAll(' | ', ' or '));
  const found = received.length > LONGEST ? `${received.slice(0, LONGEST)}…` : (KINDS[received] ?? received);
  return `must be ${wanted}; it is ${found}`;
}
