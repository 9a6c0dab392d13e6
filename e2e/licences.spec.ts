import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { openJobs } from './stored-jobs.ts';

/** Packages whose code is in a build, by its own source maps: of the page, the workers and the service worker. */
function shippedPackages(folder: string): Set<string> {
  const names = new Set<string>();
  for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!file.endsWith('.js.map')) continue;
    const { sources } = JSON.parse(readFileSync(join(folder, file), 'utf8')) as { readonly sources: readonly string[] };
    for (const source of sources) {
      const name = /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(source)?.[1];
      if (name !== undefined) names.add(name);
    }
  }
  return names;
}

test('the licences name every package whose code is shipped, by the build\u2019s own source maps', async ({ page, request }) => {
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-licences-'));
  try {
    execFileSync('npx', ['vite', 'build', '--sourcemap', '--logLevel', 'error'], { env: { ...process.env, QUILLWIND_DIST: folder } });
    const shipped = shippedPackages(folder);
    const text = await (await request.get('./licences.md')).text();
    const named = new Set([...text.matchAll(/^## (\S+) \d/gm)].map(([, name]) => name));
    expect(shipped.size).toBeGreaterThan(18);
    expect([...shipped].filter((name) => !named.has(name))).toEqual([]);
    // Workers and service worker are among them.
    for (const name of ['fast-xml-parser', 'svgpath', 'workbox-precaching', 'workbox-routing']) expect(named).toContain(name);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  await openJobs(page);
  await page.locator('summary', { hasText: 'About' }).click();
  await expect(page.locator('[data-version]')).toHaveText(/^\d+\.\d+\.\d+$/);
  await page.getByRole('button', { name: 'Licences' }).click();
  await expect(page.locator('.licences')).toContainText('workbox-precaching');
});
