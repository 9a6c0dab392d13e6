import { FAULTS } from './faults.ts';
import { titlePattern } from './named-test.ts';

/** A test as a run reported it. */
export interface RanTest {
  readonly file: string;
  readonly title: string;
  readonly passed: boolean;
}

export interface FaultResult {
  readonly fault: string;
  readonly promises: string;
  /** `not run` where none of its tests was, as with those that only the nightly run knows. */
  readonly result: 'holds' | 'BROKEN' | 'not run';
  readonly testCount: number;
}

interface UnitReport {
  readonly testResults: readonly { readonly name: string; readonly assertionResults: readonly { readonly fullName: string; readonly status: string }[] }[];
}

interface BrowserSuite {
  readonly file: string;
  readonly specs?: readonly { readonly title: string; readonly ok: boolean; readonly tests: readonly { readonly status: string }[] }[];
  readonly suites?: readonly BrowserSuite[];
}

/** The tests of vitest's JSON report; skipped ones are left out. */
export function ranInUnit({ testResults }: UnitReport): RanTest[] {
  return testResults.flatMap(({ name, assertionResults }) =>
    assertionResults
      .filter(({ status }) => status === 'passed' || status === 'failed')
      .map(({ fullName, status }) => ({ file: name, title: fullName, passed: status === 'passed' })),
  );
}

/** The tests of Playwright's JSON report; skipped ones are left out. */
export function ranInBrowser({ suites }: { readonly suites: readonly BrowserSuite[] }): RanTest[] {
  const of = (suite: BrowserSuite): RanTest[] => [
    ...(suite.specs ?? [])
      .filter(({ tests }) => tests.some(({ status }) => status !== 'skipped'))
      .map(({ title, ok }) => ({ file: `e2e/${suite.file}`, title, passed: ok })),
    ...(suite.suites ?? []).flatMap(of),
  ];
  return suites.flatMap(of);
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
