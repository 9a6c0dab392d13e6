// Finds a Chromium that runs. Plain JavaScript on Node alone: it must work before any package is installed.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];

/** True when the file starts and names its version; a distribution's placeholder exists but does not run. */
function runs(path) {
  try {
    return /chrom/i.test(execFileSync(path, ['--version'], { encoding: 'utf8', timeout: 30_000, stdio: ['ignore', 'pipe', 'ignore'] }));
  } catch {
    return false;
  }
}

/** Path of a Chromium that runs: CHROMIUM_PATH first, then the PATH's folders; null for none. */
export function findChromium() {
  const chosen = process.env.CHROMIUM_PATH;
  if (chosen) {
    if (!runs(chosen)) throw new Error(`CHROMIUM_PATH is ${chosen}, which does not start as a browser. Correct it, or unset it to have one found.`);
    return chosen;
  }
  const folders = [...(process.env.PATH ?? '').split(delimiter), '/usr/bin', '/snap/bin'];
  for (const name of NAMES) {
    for (const folder of folders) {
      const path = join(folder, name);
      if (existsSync(path) && runs(path)) return path;
    }
  }
  return null;
}
