import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { FAULTS } from '../faults/faults.ts';
import { testExists } from '../faults/named-test.ts';
import { PROMISES } from '../faults/promises.ts';
import { type FaultResult, faultResults, ranInBrowser, ranInUnit } from '../faults/results.ts';
import { plantDefects } from './defects.ts';
import type { Figure, Shown } from './figures.ts';
import { atLeast, atMost, reported } from './limits.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const KILLS = process.env['QUILLWIND_KILLS'] ?? '40';
const SOAK_HOURS = process.env['QUILLWIND_SOAK_HOURS'] ?? '3';
const FUZZ_CASES = process.env['QUILLWIND_FUZZ'] ?? '100000';
/** The browser's tests that a fault or a promise names, and every other fault's. */
const SPECS = ['faults/', ...new Set([...FAULTS, ...PROMISES].flatMap(({ tests }) => tests.map(([file]) => file)).filter((file) => file.startsWith('e2e/')))];

interface Ran {
  readonly output: string;
  readonly report: unknown;
}

/**
 * What can be relied on: every fault injected, every promise held by a test that ran, forty kills and three hours, every
 * parser fuzzed, every planted defect noticed. About an hour; the built app in dist/ is tested, so `npm run build` first.
 */
export async function showTrust(): Promise<Shown> {
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-trust-'));
  const path = (name: string): string => join(folder, name);
  console.log('unit tests, with the coverage of core');
  const unit = await run(
    [
      'vitest',
      'run',
      '--exclude',
      'tests/fuzz/**',
      '--reporter=json',
      `--outputFile.json=${path('unit.json')}`,
      '--coverage',
      '--coverage.include=src/core/**/*.ts',
      '--coverage.reportOnFailure',
      '--coverage.reporter=json-summary',
      `--coverage.reportsDirectory=${path('coverage')}`,
    ],
    {},
    path('unit.json'),
  );
  console.log(`browser tests: ${KILLS} kills, ${SOAK_HOURS} h`);
  const browser = await run(
    ['playwright', 'test', '--config', 'e2e/playwright.config.ts', '--reporter=list,json', ...SPECS],
    {
      QUILLWIND_KILLS: KILLS,
      QUILLWIND_SOAK_HOURS: SOAK_HOURS,
      QUILLWIND_LOOKS: '',
      PLAYWRIGHT_JSON_OUTPUT_NAME: path('e2e.json'),
      QUILLWIND_RESULTS: path('results'),
    },
    path('e2e.json'),
  );
  console.log(`fuzz: ${FUZZ_CASES} cases a parser`);
  const fuzz = await run(
    ['vitest', 'run', 'tests/fuzz', '--reporter=default', '--reporter=json', `--outputFile.json=${path('fuzz.json')}`],
    { QUILLWIND_FUZZ: FUZZ_CASES },
    path('fuzz.json'),
  );
  console.log('defects put into core, one at a time');
  const defects = plantDefects(({ about, noticed, by }) => console.log(`      ${noticed ? 'noticed' : 'MISSED '}  ${about}${by === '' ? '' : `: ${by}`}`));

  const ran = [...ranInUnit(unit.report as never), ...ranInBrowser(browser.report as never)];
  const faults = faultResults(ran);
  printFaults(faults);
  const held = PROMISES.filter(
    ({ tests }) =>
      tests.every(testExists) &&
      tests.every(([file]) => ran.some((one) => one.file.endsWith(file) && one.passed)) &&
      ran.filter((one) => tests.some(([file]) => one.file.endsWith(file))).every(({ passed }) => passed),
  );
  const coverage = (JSON.parse(readFileSync(path('coverage/coverage-summary.json'), 'utf8')) as { total: Record<'lines' | 'branches', { pct: number }> }).total;
  const parsers = [...fuzz.output.matchAll(/^ +(.+): (\d+) cases, (\d+) taken, (\d+) refused, slowest (\d+) ms/gm)].map(
    ([, name = '', cases, , , slowest]) => ({ name, cases: Number(cases), slowest: Number(slowest) }),
  );
  const kills = /(\d+) rows acknowledged over (\d+) kills, none lost/.exec(browser.output);
  const figures: Figure[] = [
    atLeast('faults injected, and the promise kept', faults.filter(({ result }) => result === 'holds').length, faults.length, `of ${faults.length}`, 0),
    atLeast('promises whose tests all ran and passed', held.length, PROMISES.length, `of ${PROMISES.length}`, 0),
    atLeast('kills of the browser without a lost row', Number(kills?.[2] ?? 0), Number(KILLS), '', 0),
    reported('rows acknowledged over them, counted outside', kills?.[1] ?? 'none'),
    reported('hours of flight on a fast clock', /(\d+ rows over .*)$/m.exec(browser.output)?.[1] ?? 'not run', `${SOAK_HOURS} h`),
    ...parsers.map(({ name, cases, slowest }) => reported(`fuzz of ${name}`, `${cases} cases, slowest ${slowest} ms`, 'under 2000 ms')),
    atLeast('parsers fuzzed without a hang, a raw throw or a changed store', failed(fuzz) ? 0 : parsers.length, 12, '', 0),
    atMost('tests that failed', failedCount(unit) + ran.filter(({ passed }) => !passed).length, 0, '', 0),
    atLeast('core covered, lines', coverage.lines.pct, 90, '%', 1),
    atLeast('core covered, branches', coverage.branches.pct, 85, '%', 1),
    atLeast('defects put into core and noticed by a test', defects.filter(({ noticed }) => noticed).length, defects.length, `of ${defects.length}`, 0),
  ];
  return {
    figures,
    headline: `${faults.filter(({ result }) => result === 'holds').length} of ${faults.length} faults leave every promise kept; ${kills?.[1] ?? 'no'} acknowledged rows outlive ${kills?.[2] ?? 'no'} kills; ${parsers.reduce((sum, { cases }) => sum + cases, 0).toLocaleString('en')} hostile files get a plain answer; ${defects.filter(({ noticed }) => noticed).length} of ${defects.length} defects are noticed.`,
  };
}

/** Runs a tool, its output passed on as it comes. */
async function run(args: readonly string[], env: Readonly<Record<string, string>>, reportPath: string): Promise<Ran> {
  const inherited = Object.fromEntries(Object.entries({ ...process.env, ...env }).filter(([, value]) => value !== ''));
  let output = '';
  const child = spawn('npx', [...args], { cwd: root, env: inherited, stdio: ['ignore', 'pipe', 'inherit'] });
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output += text;
    process.stdout.write(text);
  });
  await new Promise((resolve) => child.once('close', resolve));
  return { output, report: JSON.parse(readFileSync(reportPath, 'utf8')) as unknown };
}

function failedCount({ report }: Ran): number {
  const { numFailedTestSuites, numFailedTests } = report as { numFailedTestSuites: number; numFailedTests: number };
  // A file that cannot be loaded holds no failed test.
  return numFailedTests === 0 ? numFailedTestSuites : 0;
}

function failed({ report }: Ran): boolean {
  return !(report as { success: boolean }).success;
}

function printFaults(faults: readonly FaultResult[]): void {
  const width = Math.max(...faults.map(({ fault }) => fault.length));
  for (const { fault, promises, result, testCount } of faults)
    console.log(`      ${fault.padEnd(width)}  ${promises.padEnd(12)}  ${result.padEnd(8)}  ${testCount} tests`);
}
