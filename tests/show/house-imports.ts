import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Every source file of src with what it imports, types included, as paths from the project's root. */
export function sourceImports(): ReadonlyMap<string, readonly string[]> {
  const paths = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .map((name) => `src/${name}`)
    .filter((path) => /\.tsx?$/.test(path));
  return new Map(
    paths.map((path) => {
      const found = readFileSync(join(root, path), 'utf8').matchAll(/(?:from|import)\s*\(?\s*['"](\.[^'"]+)['"]/g);
      return [path, [...found].map((match) => normalize(join(dirname(path), match[1] ?? '')))];
    }),
  );
}

/** The room of a file: a folder of core, app or ui, else a folder of src. */
export function roomOf(path: string): string {
  const parts = path.split('/');
  return parts.length > 3 && ['core', 'app', 'ui'].includes(parts[1] ?? '') ? parts.slice(1, 3).join('/') : (parts[1] ?? '');
}

/** Sets of files that import each other in a circle, types included (Tarjan 1972, strongly connected components). */
export function importCircles(imports: ReadonlyMap<string, readonly string[]>): string[][] {
  const indices = new Map<string, number>();
  const lowest = new Map<string, number>();
  const stack: string[] = [];
  const circles: string[][] = [];
  const visit = (file: string): void => {
    indices.set(file, indices.size);
    lowest.set(file, indices.get(file)!);
    stack.push(file);
    for (const target of imports.get(file) ?? []) {
      if (!imports.has(target)) continue;
      if (!indices.has(target)) {
        visit(target);
        lowest.set(file, Math.min(lowest.get(file)!, lowest.get(target)!));
      } else if (stack.includes(target)) lowest.set(file, Math.min(lowest.get(file)!, indices.get(target)!));
    }
    if (lowest.get(file) !== indices.get(file)) return;
    const circle = stack.splice(stack.indexOf(file));
    if (circle.length > 1) circles.push(circle);
  };
  for (const file of imports.keys()) if (!indices.has(file)) visit(file);
  return circles;
}
