import { FAULTS } from './faults.ts';
import type { NamedTest } from './named-test.ts';
import { PROMISES } from './promises.ts';

const cell = (text: string): string => text.replaceAll('|', '\\|');
const files = (tests: readonly NamedTest[]): string =>
  [...new Set(tests.map(([file]) => file.replace(/^(tests|e2e)\//, (all) => (all === 'e2e/' ? 'e2e/' : ''))))].map((file) => `\`${file}\``).join(', ');

/** The two tables as README.md beside this holds them, between its marks. */
export function tablesText(): string {
  const faults = FAULTS.map(
    ({ fault, promises, injected, holds, tests }) => `| ${[fault, promises.join(' '), injected, holds, files(tests)].map(cell).join(' | ')} |`,
  );
  const promises = PROMISES.map(({ id, promise, tests }) => `| ${[id, promise, files(tests)].map(cell).join(' | ')} |`);
  return [
    '| promise | | held by |',
    '| --- | --- | --- |',
    ...promises,
    '',
    '| fault | promise | injected as | what holds | tests |',
    '| --- | --- | --- | --- | --- |',
    ...faults,
  ].join('\n');
}

/** Marks in README.md between which the tables stand. */
export const TABLE_MARKS = ['<!-- faults: written by tests/faults/write-tables.ts -->', '<!-- end of faults -->'] as const;
