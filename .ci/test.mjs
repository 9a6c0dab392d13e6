// Check, unit tests, build and browser tests in turn; the last line is the sum alone. Each step that is no test
// runner counts as one test, and a runner that breaks without naming a failed test counts as one failed test.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const results = join(root, 'node_modules', '.cache', 'results');
rmSync(results, { recursive: true, force: true });
mkdirSync(results, { recursive: true });

function run(title, command, args, env = {}) {
  process.stdout.write(`\n== ${title}\n`);
  const startedAt = Date.now();
  const { status } = spawnSync(command, args, { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } });
  return { title, exitedWell: status === 0, seconds: Math.round((Date.now() - startedAt) / 1000) };
}

function readCounts(path, pick) {
  try {
    return pick(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return { passed: 0, failed: 0, skipped: 0, again: 0 };
  }
}

function summed(step, { passed, failed, skipped, again = 0 }) {
  const broken = (!step.exitedWell && failed === 0) || passed + failed === 0;
  return { ...step, passed, failed: failed + (broken ? 1 : 0), skipped, again };
}

function one(title, command, args) {
  const step = run(title, command, args);
  return { ...step, passed: step.exitedWell ? 1 : 0, failed: step.exitedWell ? 0 : 1, skipped: 0, again: 0 };
}

function unit() {
  const path = join(results, 'unit.json');
  const step = run('unit', 'npx', ['vitest', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${path}`]);
  return summed(
    step,
    readCounts(path, (report) => ({
      passed: report.numPassedTests,
      // A file that cannot be loaded, or whose preparation fails, holds no failed test.
      failed:
        report.numFailedTests +
        report.testResults.filter((file) => file.status === 'failed' && !file.assertionResults.some(({ status }) => status === 'failed')).length,
      skipped: report.numPendingTests + report.numTodoTests,
    })),
  );
}

/** The browser tests of one project: `together` two at a time, `alone` one after another. */
function browser(project) {
  const path = join(results, `e2e-${project}.json`);
  const step = run(`e2e ${project}`, 'npx', ['playwright', 'test', '--config', 'e2e/playwright.config.ts', '--project', project, '--reporter=list,json'], {
    PLAYWRIGHT_JSON_OUTPUT_NAME: path,
  });
  return summed(
    step,
    readCounts(path, ({ stats }) => ({ passed: stats.expected + stats.flaky, failed: stats.unexpected, skipped: stats.skipped, again: stats.flaky })),
  );
}

/**
 * The link is tested over two brokers. Where the second cannot be had everything else is still tested, and what was
 * left out is said; in continuous integration nothing is left out.
 */
function haveMosquitto() {
  if (run('the other broker', 'node', ['.ci/ensure.mjs', 'mosquitto']).exitedWell) return true;
  if (process.env.CI !== undefined) process.exit(1);
  process.env.QUILLWIND_NO_MOSQUITTO = '1';
  process.stdout.write('Going on without Mosquitto: its test is left out and counted as skipped.\n');
  return false;
}

const begunAt = Date.now();
const withMosquitto = haveMosquitto();
const steps = [
  one('format', 'npx', ['oxfmt', '--check', 'src', 'tests', 'e2e', '.ci', 'vite.config.ts']),
  one('types', 'npx', ['tsc', '-b']),
  one('lint', 'npx', ['oxlint', '--type-aware', '--deny-warnings']),
  one('unused', 'npm', ['run', '--silent', 'unused']),
  unit(),
];
const build = one('build', 'npm', ['run', '--silent', 'build']);
steps.push(build);
if (build.exitedWell) steps.push(browser('together'), browser('alone'));
else steps.push({ title: 'e2e (nothing built to test)', passed: 0, failed: 1, skipped: 0, again: 0, seconds: 0 });

process.stdout.write('\n== faults\n');
spawnSync(
  'node',
  ['--import', 'tsx', 'tests/faults/print-results.ts', join(results, 'unit.json'), join(results, 'e2e-together.json'), join(results, 'e2e-alone.json')],
  { cwd: root, stdio: 'inherit' },
);

process.stdout.write('\n');
let passed = 0;
let failed = 0;
for (const step of steps) {
  passed += step.passed;
  failed += step.failed;
  const skipped = step.skipped > 0 ? `, ${step.skipped} skipped` : '';
  const again = step.again > 0 ? `, ${step.again} of them only at the second attempt` : '';
  process.stdout.write(
    `${step.failed > 0 ? 'FAILED' : 'ok    '} ${step.title}: ${step.passed} passed${again}, ${step.failed} failed${skipped} (${step.seconds} s)\n`,
  );
}
if (!withMosquitto) process.stdout.write('NOT TESTED: the link over Mosquitto, which is not installed here and could not be.\n');
writeFileSync(join(results, 'seconds.json'), JSON.stringify({ seconds: Math.round((Date.now() - begunAt) / 1000), passed, failed }));
process.stdout.write(`${passed} passed, ${failed} failed\n`);
process.exitCode = failed > 0 ? 1 : 0;
