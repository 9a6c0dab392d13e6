import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { advisoryFaults, advisoryTable, type Lock, type Look, ownAdvisories, shippedPackages } from '../.ci/advisories.ts';

const look = (part: Partial<Look> = {}): Look => ({ advisory: null, mendedIn: null, how: 'record', lookedOn: '2026-11-28', ...part });

describe('advisories of what is shipped', () => {
  it('were looked for in every package, and none is older than what mends it', () => {
    const { shipped, looks } = ownAdvisories();
    expect(shipped.size).toBeGreaterThan(30);
    expect(advisoryFaults(shipped, looks)).toEqual([]);
    expect(readFileSync(new URL('../.ci/advisories.md', import.meta.url), 'utf8')).toBe(advisoryTable(shipped, looks));
  });

  it('fail on a package added without a look, on an old version, and on a look at nothing', () => {
    const shipped = new Map([
      ['one', ['1.2.3']],
      ['two', ['2.10.0', '2.9.9']],
      ['three', ['3.0.0']],
    ]);
    const looks = { two: look({ advisory: 'A', mendedIn: '2.10.0' }), three: look({ lookedOn: 'lately' }), four: look() };
    expect(advisoryFaults(shipped, looks)).toEqual([
      'one is shipped and nobody has looked for advisories of it',
      'two 2.9.9 has A, mended in 2.10.0',
      'three: the day of the look is missing',
      'four is looked at and not shipped',
    ]);
  });

  it('find a package within another as the package manager does', () => {
    const lock: Lock = {
      packages: {
        '': { dependencies: { a: '1' } },
        'node_modules/a': { version: '1.0.0', dependencies: { b: '2', c: '1' } },
        'node_modules/a/node_modules/b': { version: '2.0.0', dependencies: { c: '1' } },
        'node_modules/b': { version: '1.0.0' },
        'node_modules/c': { version: '1.5.0' },
        'node_modules/d': { version: '9.0.0' },
      },
    };
    expect([...shippedPackages(lock)]).toEqual([
      ['a', ['1.0.0']],
      ['b', ['2.0.0']],
      ['c', ['1.5.0']],
    ]);
  });
});
