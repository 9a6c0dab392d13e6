import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Runs the browser tests of a file whose title holds some words, and gives what they printed. */
export function played(file: string, title: string, environment: Readonly<Record<string, string>>): { readonly ok: boolean; readonly text: string } {
  const { status, stdout } = spawnSync('npx', ['playwright', 'test', '--config', 'e2e/playwright.config.ts', file, '-g', title], {
    cwd: root(),
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
    env: { ...process.env, ...environment },
  });
  process.stdout.write(stdout);
  return { ok: status === 0, text: stdout };
}

/** The project's folder. */
export function root(): string {
  return fileURLToPath(new URL('../..', import.meta.url));
}
