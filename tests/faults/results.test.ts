import { describe, expect, it } from 'vitest';
import { failedLines, ranInBrowser, ranInUnit } from './results.ts';

describe('what failed in a run', () => {
  it('is named with what it said, without stack and colours; what passed is left out', () => {
    const ran = ranInUnit({
      testResults: [
        {
          name: 'tests/a.test.ts',
          status: 'failed',
          assertionResults: [
            { fullName: 'a holds', status: 'passed', failureMessages: [] },
            { fullName: 'a breaks', status: 'failed', failureMessages: ['\u001B[31mAssertionError: expected 2 to be 1\u001B[39m\n    at tests/a.test.ts:3:1'] },
          ],
        },
        { name: 'tests/b.test.ts', status: 'failed', message: 'no such module', assertionResults: [] },
      ],
    });
    expect(failedLines(ran)).toEqual([
      'FAILED  tests/a.test.ts: a breaks',
      '    AssertionError: expected 2 to be 1',
      'FAILED  tests/b.test.ts: (the file itself)',
      '    no such module',
    ]);
  });

  it('tells the browser test that needed a second attempt from the one that failed twice', () => {
    const attempt = (message: string) => ({ error: { message } });
    const ran = ranInBrowser({
      suites: [
        {
          file: 'c.spec.ts',
          specs: [
            { title: 'c', ok: true, tests: [{ status: 'flaky', results: [attempt('late'), {}] }] },
            { title: 'd', ok: false, tests: [{ status: 'unexpected', results: [attempt('gone'), attempt('gone again')] }] },
            { title: 'e', ok: true, tests: [{ status: 'expected', results: [{}] }] },
          ],
        },
      ],
    });
    expect(failedLines(ran)).toEqual(['second attempt  e2e/c.spec.ts: c', '    late', 'FAILED  e2e/c.spec.ts: d', '    gone', '    gone again']);
  });
});
