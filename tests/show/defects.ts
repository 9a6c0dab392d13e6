import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import defects from '../faults/defects.json' with { type: 'json' };

const root = fileURLToPath(new URL('../..', import.meta.url));
const PARTS = ['src', 'tests', 'e2e', 'public', 'vite.config.ts', 'package.json', 'tsconfig.json', '.tsconfig.base.json', '.ci', 'README.md', 'DEVELOPERS.md'];

/** A defect put into core on purpose, and whether the named test file noticed. */
export interface DefectResult {
  readonly about: string;
  readonly place: string;
  readonly test: string;
  readonly noticed: boolean;
  /** The first test that failed; empty for none. */
  readonly by: string;
}

interface Report {
  readonly numFailedTests: number;
  readonly numPassedTests: number;
  readonly testResults: readonly { readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[] }[];
}

/** Puts each defect of the list alone into a copy of the project and runs the test file that should notice it. */
export function plantDefects(told: (result: DefectResult) => void): DefectResult[] {
  const copy = mkdtempSync(join(tmpdir(), 'quillwind-defects-'));
  try {
    for (const part of PARTS) cpSync(join(root, part), join(copy, part), { recursive: true });
    symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'));
    const whole = run(copy, [...new Set(defects.map(({ test }) => test))]);
    if (whole.numFailedTests > 0 || whole.numPassedTests === 0)
      throw new Error(`Without any defect ${whole.numFailedTests} tests fail and ${whole.numPassedTests} pass: ${firstFailed(whole)}`);
    return defects.map(({ about, file, find, replace, test }) => {
      const path = join(copy, file);
      const before = readFileSync(path, 'utf8');
      if (before.split(find).length !== 2) throw new Error(`${file} does not hold "${find}" once; correct tests/faults/defects.json`);
      writeFileSync(
        path,
        before.replace(find, () => replace),
      );
      const report = run(copy, [test]);
      writeFileSync(path, before);
      const result = { about, place: `${file}: ${replace}`, test, noticed: report.numFailedTests > 0, by: firstFailed(report) };
      told(result);
      return result;
    });
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

function run(copy: string, tests: readonly string[]): Report {
  const path = join(copy, 'report.json');
  rmSync(path, { force: true });
  spawnSync('npx', ['vitest', 'run', '--reporter=json', `--outputFile.json=${path}`, ...tests], { cwd: copy, stdio: 'ignore', timeout: 300_000 });
  return JSON.parse(readFileSync(path, 'utf8')) as Report;
}

function firstFailed({ testResults }: Report): string {
  return testResults.flatMap(({ assertionResults }) => assertionResults).find(({ status }) => status === 'failed')?.fullName ?? '';
}
