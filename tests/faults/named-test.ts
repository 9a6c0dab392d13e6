import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** A test by its file, from the root of the project, and its title as the source has it; no title for the whole file. */
export type NamedTest = readonly [file: string, title?: string];

/** Whether the file holds a test of that title: it is searched as text, quotes and placeholders included. */
export function testExists([file, title]: NamedTest): boolean {
  let text: string;
  try {
    text = readFileSync(fileURLToPath(new URL(`../../${file}`, import.meta.url)), 'utf8');
  } catch {
    return false;
  }
  const tests = text.match(/\b(?:it|test)(?:\.each)?\b[^\n]*/g) ?? [];
  if (title === undefined) return tests.length > 0;
  // A table of cases may stand between `each` and the title.
  return (
    tests.some((line) => line.includes(title)) || text.split('\n').some((line) => /^\s*(?:\]|\w+)?(?: as const)?\)\(['`]/.test(line) && line.includes(title))
  );
}

/** Matches the title as a run reports it, its placeholders filled. */
export function titlePattern(title: string): RegExp {
  const pieces = title.replaceAll('\\u2019', '\u2019').split(/%[sidjf]|\$\{[^}]*\}|\$\w+/);
  return new RegExp(pieces.map((piece) => piece.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('.*'));
}
