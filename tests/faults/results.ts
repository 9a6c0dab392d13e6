import { stripVTControlCharacters } from 'node:util';
import { FAULTS } from './faults.ts';
import { titlePattern } from './named-test.ts';

/** A test as a run reported it. */
export interface RanTest {
  readonly file: string;
  readonly title: string;
  readonly passed: boolean;
  /** What each attempt that failed said first; empty where none did. */
  readonly failures: readonly string[];
}

export interface FaultResult {
  readonly fault: string;
  readonly promises: string;
  /** `not run` where none of its tests was, as with those that only the nightly run knows. */
  readonly result: 'holds' | 'BROKEN' | 'not run';
  readonly testCount: number;
}

interface UnitReport {
  readonly testResults: readonly {
    readonly name: string;
    readonly status?: string;
    readonly message?: string;
    readonly assertionResults: readonly { readonly fullName: string; readonly status: string; readonly failureMessages?: readonly string[] | null }[];
  }[];
}

interface BrowserAttempt {
  readonly error?: { readonly message?: string };
}

interface BrowserSuite {
  readonly file: string;
  readonly specs?: readonly {
    readonly title: string;
    readonly ok: boolean;
    readonly tests: readonly { readonly status: string; readonly results?: readonly BrowserAttempt[] }[];
  }[];
  readonly suites?: readonly BrowserSuite[];
}

/** The tests of vitest's JSON report; skipped ones are left out. */
export function ranInUnit({ testResults }: UnitReport): RanTest[] {
  return testResults.flatMap(({ name, status: ofFile, message, assertionResults }) => [
    // A file that cannot be loaded, or whose preparation fails, holds no failed test.
    ...(ofFile === 'failed' && !assertionResults.some(({ status }) => status === 'failed')
      ? [{ file: name, title: '(the file itself)', passed: false, failures: [briefly(message ?? '')] }]
      : []),
    ...assertionResults
      .filter(({ status }) => status === 'passed' || status === 'failed')
      .map(({ fullName, status, failureMessages }) => ({
        file: name,
        title: fullName,
        passed: status === 'passed',
        failures: (failureMessages ?? []).map(briefly),
      })),
  ]);
}

/** The tests of Playwright's JSON report; skipped ones are left out. */
export function ranInBrowser({ suites }: { readonly suites: readonly BrowserSuite[] }): RanTest[] {
  const of = (suite: BrowserSuite): RanTest[] => [
    ...(suite.specs ?? [])
      .filter(({ tests }) => tests.some(({ status }) => status !== 'skipped'))
      .map(({ title, ok, tests }) => ({ file: `e2e/${suite.file}`, title, passed: ok, failures: tests.flatMap(({ results }) => failuresOf(results ?? [])) })),
    ...(suite.suites ?? []).flatMap(of),
  ];
  return suites.flatMap(of);
}

const failuresOf = (attempts: readonly BrowserAttempt[]): string[] =>
  attempts.flatMap(({ error }) => (error === undefined ? [] : [briefly(error.message ?? 'no message')]));

/** What a failure says, without its stack and colours, in one line. */
function briefly(message: string): string {
  const lines = stripVTControlCharacters(message)
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('at '));
  return lines.slice(0, 6).join(' / ').slice(0, 400);
}

/** The tests that failed, or passed only at the second attempt, a line each, with what each failure said. */
export function failedLines(ran: readonly RanTest[]): string[] {
  return ran
    .filter(({ passed, failures }) => !passed || failures.length > 0)
    .flatMap(({ file, title, passed, failures }) => [
      `${passed ? 'second attempt' : 'FAILED'}  ${file}: ${title}`,
      ...failures.map((failure) => `    ${failure}`),
    ]);
}

/** What became of each fault in a run. */
export function faultResults(ran: readonly RanTest[]): FaultResult[] {
  return FAULTS.map(({ fault, promises, tests }) => {
    const found = tests.flatMap(([file, title]) => {
      const pattern = title === undefined ? /(?:)/ : titlePattern(title);
      return ran.filter((one) => one.file.endsWith(file) && pattern.test(one.title));
    });
    return {
      fault,
      promises: promises.join(' '),
      result: found.length === 0 ? 'not run' : found.every(({ passed }) => passed) ? 'holds' : 'BROKEN',
      testCount: found.length,
    };
  });
}
