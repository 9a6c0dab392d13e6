import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { argv } from 'node:process';

/** One look at what is publicly known of a package. */
export interface Look {
  readonly advisory: string | null;
  /** The first version without it. */
  readonly mendedIn: string | null;
  readonly how: 'record' | 'own source' | 'memory';
  readonly lookedOn: string;
}

interface LockedPackage {
  readonly version?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
}

export interface Lock {
  readonly packages: Readonly<Record<string, LockedPackage>>;
}

const pathOf = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
const readJson = (name: string): unknown => JSON.parse(readFileSync(pathOf(name), 'utf8'));

/** Every package that goes into the app or the hub, by name, with each version that the lock file has of it. */
export function shippedPackages(lock: Lock): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, Set<string>>();
  const seen = new Set<string>();
  const walk = (name: string, from: string): void => {
    for (let base = from; ; base = base.includes('node_modules/') ? base.slice(0, base.lastIndexOf('node_modules/')).replace(/\/$/, '') : '') {
      const path = `${base === '' ? '' : `${base}/`}node_modules/${name}`;
      const entry = lock.packages[path];
      if (entry !== undefined) {
        if (seen.has(path)) return;
        seen.add(path);
        found.set(name, (found.get(name) ?? new Set()).add(entry.version ?? ''));
        for (const each of Object.keys(entry.dependencies ?? {})) walk(each, path);
        return;
      }
      if (base === '') return;
    }
  };
  for (const name of Object.keys(lock.packages['']?.dependencies ?? {})) walk(name, '');
  return new Map([...found].toSorted(([one], [other]) => (one < other ? -1 : 1)).map(([name, versions]) => [name, [...versions]]));
}

/** What is wrong: a shipped package nobody looked at, a version older than the mended one, a look at what is not shipped. */
export function advisoryFaults(shipped: ReadonlyMap<string, readonly string[]>, looks: Readonly<Record<string, Look>>): string[] {
  const faults: string[] = [];
  for (const [name, versions] of shipped) {
    const look = looks[name];
    if (look === undefined) {
      faults.push(`${name} is shipped and nobody has looked for advisories of it`);
      continue;
    }
    if (!/^\d{4}-\d\d-\d\d$/.test(look.lookedOn)) faults.push(`${name}: the day of the look is missing`);
    for (const version of versions)
      if (look.mendedIn !== null && isOlder(version, look.mendedIn)) faults.push(`${name} ${version} has ${look.advisory}, mended in ${look.mendedIn}`);
  }
  for (const name of Object.keys(looks)) if (!shipped.has(name)) faults.push(`${name} is looked at and not shipped`);
  return faults;
}

function isOlder(version: string, other: string): boolean {
  const [one, two] = [version, other].map((each) => each.split(/[.-]/).slice(0, 3).map(Number));
  for (let index = 0; index < 3; index += 1) {
    const difference = (one?.[index] ?? 0) - (two?.[index] ?? 0);
    if (difference !== 0) return difference < 0;
  }
  return false;
}

/** The table of all shipped packages. */
export function advisoryTable(shipped: ReadonlyMap<string, readonly string[]>, looks: Readonly<Record<string, Look>>): string {
  const rows = [...shipped].map(([name, versions]) => {
    const { advisory, mendedIn, how, lookedOn } = looks[name] ?? { advisory: '?', mendedIn: '?', how: '?', lookedOn: '?' };
    return `| ${name} | ${versions.join(', ')} | ${advisory ?? 'none found'} | ${mendedIn ?? ''} | ${how} | ${lookedOn} |`;
  });
  return `# Advisories of what is shipped\n\nWritten by \`node --import tsx .ci/advisories.ts\` from the lock file and \`advisories.json\`, where each look is entered by hand.\nA package added without a look fails the tests. What stands there from memory was not looked up that day: do so before relying on it.\n\n| package | version | newest advisory | mended in | how | looked on |\n| --- | --- | --- | --- | --- | --- |\n${rows.join('\n')}\n`;
}

/** The lock file and the looks of this project. */
export function ownAdvisories(): { readonly shipped: ReadonlyMap<string, readonly string[]>; readonly looks: Readonly<Record<string, Look>> } {
  const { packages } = readJson('./advisories.json') as { readonly packages: Readonly<Record<string, Look>> };
  return { shipped: shippedPackages(readJson('../package-lock.json') as Lock), looks: packages };
}

if (argv[1] === fileURLToPath(import.meta.url)) {
  const { shipped, looks } = ownAdvisories();
  const faults = advisoryFaults(shipped, looks);
  for (const fault of faults) console.error(fault);
  if (faults.length > 0) process.exitCode = 1;
  else writeFileSync(pathOf('./advisories.md'), advisoryTable(shipped, looks));
}
