// Format, types, lint and the unit tests that neither wait nor fly for long: under a minute on a quiet machine of two cores.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const startedAt = Date.now();
const steps = [
  ['oxfmt', '--check', 'src', 'tests', 'e2e', '.ci', 'vite.config.ts'],
  ['tsc', '-b'],
  ['oxlint', '--type-aware', '--deny-warnings'],
  ['vitest', 'run', '--reporter=default', '--silent'],
];
let well = true;
for (const [command, ...args] of steps) {
  const { status } = spawnSync('npx', [command, ...args], { cwd: root, stdio: 'inherit', env: { ...process.env, QUILLWIND_QUICK: '1' } });
  well &&= status === 0;
}
process.stdout.write(`quick: ${((Date.now() - startedAt) / 1000).toFixed(0)} s\n`);
process.exitCode = well ? 0 : 1;
