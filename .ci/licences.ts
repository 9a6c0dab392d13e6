import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';

interface Bundle {
  readonly [file: string]: { readonly type: string; readonly moduleIds?: readonly string[] };
}

/** The folder of the package that a module belongs to; null for the project's own. */
function packageFolder(moduleId: string): string | null {
  return /^(?:\0|virtual:)*(.*\/node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(moduleId.split('?')[0] ?? '')?.[1] ?? null;
}

/** The package as its own package.json names it; null for a folder that has none. */
function describe(folder: string): { readonly name: string; readonly version: string; readonly license: string; readonly text: string } | null {
  const path = join(folder, 'package.json');
  if (!existsSync(path)) return null;
  const { name, version, license } = JSON.parse(readFileSync(path, 'utf8')) as Readonly<Record<string, unknown>>;
  if (typeof name !== 'string' || typeof version !== 'string') return null;
  const file = readdirSync(folder).find((each) => /^(licen[cs]e|copying)/i.test(each));
  return {
    name,
    version,
    license: typeof license === 'string' ? license : '',
    text: file === undefined ? '' : readFileSync(join(folder, file), 'utf8').trim(),
  };
}

/** Folders of the packages that a package asks for, itself first. */
function withDependencies(name: string, modulesFolder: string, seen = new Set<string>()): Set<string> {
  const folder = join(modulesFolder, name);
  if (seen.has(folder) || !existsSync(folder)) return seen;
  seen.add(folder);
  const { dependencies = {} } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { readonly dependencies?: Readonly<Record<string, string>> };
  for (const each of Object.keys(dependencies)) withDependencies(each, modulesFolder, seen);
  return seen;
}

/**
 * Plugins that name every package whose code is shipped, with its licence, in `licences.md`: of the page, the workers and
 * the service worker. The last is built after the file was written, so it is named by what it imports and held to that:
 * a package in it that the file does not name ends the build.
 */
export function licences(
  root: string,
  serviceWorkerPackages: readonly string[],
): { readonly page: Plugin; readonly worker: () => Plugin; readonly serviceWorker: Plugin } {
  const folders = new Set<string>();
  const collect = (bundle: Bundle): void => {
    for (const { moduleIds = [] } of Object.values(bundle)) {
      for (const id of moduleIds) {
        const folder = packageFolder(id);
        if (folder !== null) folders.add(folder);
      }
    }
  };
  for (const name of serviceWorkerPackages) for (const folder of withDependencies(name, join(root, 'node_modules'))) folders.add(folder);
  return {
    worker: () => ({ name: 'licences-of-workers', generateBundle: (_options, bundle) => collect(bundle as unknown as Bundle) }),
    page: {
      name: 'licences',
      apply: 'build',
      generateBundle(_options, bundle) {
        collect(bundle as unknown as Bundle);
        const packages = [...folders].flatMap((folder) => describe(folder) ?? []).toSorted((one, other) => one.name.localeCompare(other.name));
        const source = `# Licences\n\nQuillwind ships the code of these ${packages.length} packages.\n\n${packages
          .map(
            ({ name, version, license, text }) =>
              `## ${name} ${version}${license === '' ? '' : ` (${license})`}\n\n${text === '' ? 'Its package holds no licence text.' : text}\n`,
          )
          .join('\n')}`;
        this.emitFile({ type: 'asset', fileName: 'licences.md', source });
      },
    },
    serviceWorker: {
      name: 'licences-of-service-worker',
      generateBundle(_options, bundle) {
        for (const { moduleIds = [] } of Object.values(bundle as unknown as Bundle)) {
          for (const id of moduleIds) {
            const folder = packageFolder(id);
            if (folder !== null && !folders.has(folder)) this.error(`${folder} is shipped with the service worker and licences.md does not name it`);
          }
        }
      },
    },
  };
}
