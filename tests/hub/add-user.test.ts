import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { usersFromText } from '../../src/hub/users.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'quillwind-users-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function addUser(...more: readonly string[]): { readonly status: number | null; readonly said: string } {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', 'tsx', 'src/hub/main.ts', 'add-user', ...more, '--users', join(folder, 'users.json')],
    {
      cwd: root,
      encoding: 'utf8',
    },
  );
  return { status, said: stdout + stderr };
}

test('jobs that are none are refused before anything is written, and the file is for its owner alone each time', { timeout: 60_000 }, () => {
  const path = join(folder, 'users.json');
  const refused = addUser('bob', 'ship', '--jobs', 'lake one,pier');
  expect(refused.status).not.toBe(0);
  expect(refused.said).toMatch(/"lake one" is no job/);
  expect(existsSync(path)).toBe(false);
  expect(addUser('bob', 'ship', '--jobs', 'lake-one,pier').status).toBe(0);
  chmodSync(path, 0o644);
  expect(addUser('ann', 'ground').status).toBe(0);
  expect(statSync(path).mode & 0o777).toBe(0o600);
  const reading = usersFromText(readFileSync(path, 'utf8'));
  expect(reading.ok && reading.value.map(({ name, jobs }) => [name, jobs])).toEqual([
    ['bob', ['lake-one', 'pier']],
    ['ann', ['*']],
  ]);
});
