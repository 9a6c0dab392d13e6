import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

interface SourceFile {
  readonly path: string;
  readonly code: string;
}

/** The text with its comments blanked; a string that holds comment marks does not occur in this project. */
function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|[^:'"`])\/\/.*$/gm, '$1');
}

const sources: readonly SourceFile[] = sourceFiles();

function sourceFiles(): SourceFile[] {
  return readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => `src/${name}`)
    .sort()
    .map((path) => ({ path, code: withoutComments(readFileSync(join(root, path), 'utf8')) }));
}

function importsOf({ path, code }: SourceFile): string[] {
  const found = code.matchAll(/(?:\bfrom\s+|\bimport\s+|\bimport\(\s*)['"]([^'"]+)['"]/g);
  return [...found].map((match) => match[1] ?? '').map((target) => (target.startsWith('.') ? relative(root, join(root, dirname(path), target)) : target));
}

/** What each part may import besides itself. Siblings of the middle row know nothing of each other. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  core: [],
  workers: ['core'],
  store: ['core'],
  sensors: ['core'],
  sound: ['core'],
  link: ['core'],
  app: ['core', 'workers', 'store', 'sensors', 'sound', 'link'],
  ui: ['core', 'app'],
  main: ['core', 'app', 'ui'],
  hub: ['core/wire', 'core/text'],
  sw: [],
};

function partOf(path: string): string {
  return path === 'src/main.tsx' ? 'main' : (path.split('/')[1] ?? '');
}

function mayImport(part: string, target: string): boolean {
  if (partOf(target) === part) return true;
  return (ALLOWED[part] ?? []).some((allowed) => target.startsWith(`src/${allowed}/`));
}

describe('the house', () => {
  it('is read at all', () => {
    expect(sources.length).toBeGreaterThan(30);
    expect(sources.flatMap(importsOf).length).toBeGreaterThan(30);
  });

  it('has only parts that the direction of imports names', () => {
    expect([...new Set(sources.map(({ path }) => partOf(path)))].filter((part) => !(part in ALLOWED))).toEqual([]);
  });

  it('imports in one direction', () => {
    const wrong = sources.flatMap((file) =>
      importsOf(file)
        .filter((target) => target.startsWith('src/') && !mayImport(partOf(file.path), target))
        .map((target) => `${file.path} imports ${target}`),
    );
    expect(wrong).toEqual([]);
  });

  it('leaves the folder of sources only for the workers it starts', () => {
    const outside = sources.flatMap((file) =>
      importsOf(file)
        .filter((target) => target.startsWith('..'))
        .map((target) => `${file.path} imports ${target}`),
    );
    expect(outside).toEqual([]);
  });

  it('reads no clock and draws no chance in core', () => {
    const impure = /\bDate\.now\b|\bnew Date\s*\(\s*\)|\bMath\.random\b|\bperformance\.now\b|\bcrypto\.|\bglobalThis\b/;
    expect(sources.filter(({ path, code }) => path.startsWith('src/core/') && impure.test(code)).map(({ path }) => path)).toEqual([]);
  });

  it('builds no Date in core, which would format in the zone of the machine', () => {
    // The libraries for the magnetic field and the sun take an instant as a Date and as nothing else.
    const excepted = ['src/core/earth/magnetic-variation.ts', 'src/core/earth/sun.ts'];
    const dates = sources.filter(({ path, code }) => path.startsWith('src/core/') && /\bnew Date\b/.test(code)).map(({ path }) => path);
    expect(dates.filter((path) => !excepted.includes(path))).toEqual([]);
  });

  it('says indexedDB in one file, and in one more that stores nothing and only has the browser tidy up', () => {
    const speakers = sources.filter(({ code }) => /\bindexedDB\b|^import (?!type )[^;]*['"]idb['"]/m.test(code)).map(({ path }) => path);
    expect(speakers).toEqual(['src/store/database.ts', 'src/store/new-log.ts']);
  });

  it('draws every chance of its properties from one seed', () => {
    const direct = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name) && /from 'fast-check'/.test(readFileSync(join(root, 'tests', name), 'utf8')))
      .filter((name) => name !== 'architecture.test.ts');
    expect(direct).toEqual(['property.ts']);
  });

  it('has no barrel', () => {
    const reexporting = sources.filter(({ path, code }) => /(^|\/)index\.tsx?$/.test(path) || /^\s*export\s+(\*|\{[^}]*\}\s+from)/m.test(code));
    expect(reexporting.map(({ path }) => path)).toEqual([]);
  });

  it('has no default export', () => {
    expect(sources.filter(({ code }) => /^\s*export\s+default\b/m.test(code)).map(({ path }) => path)).toEqual([]);
  });
});
