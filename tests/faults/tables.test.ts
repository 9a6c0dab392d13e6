import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import defects from './defects.json' with { type: 'json' };
import { FAULTS } from './faults.ts';
import { testExists } from './named-test.ts';
import { PROMISES } from './promises.ts';
import { TABLE_MARKS, tablesText } from './tables-text.ts';

describe('the tables of promises and faults', () => {
  it('name only tests that there are', () => {
    const missing = [...FAULTS, ...PROMISES].flatMap(({ tests }) => tests).filter((named) => !testExists(named));
    expect(missing).toEqual([]);
    expect(testExists(['e2e/write.spec.ts', 'no such test'])).toBe(false);
    expect(testExists(['e2e/no-such.spec.ts'])).toBe(false);
  });

  it('hold P1 to P16, P20 and P22, each by a test, and each met by a fault or a test of its own', () => {
    expect(PROMISES.map(({ id }) => id)).toEqual([...Array.from({ length: 16 }, (_, index) => `P${index + 1}`), 'P20', 'P22']);
    expect(PROMISES.every(({ tests }) => tests.length > 0)).toBe(true);
    const ids = new Set(PROMISES.map(({ id }) => id));
    expect(FAULTS.flatMap(({ promises }) => promises).filter((id) => !ids.has(id))).toEqual([]);
    expect(FAULTS.every(({ tests, promises }) => tests.length > 0 && promises.length > 0)).toBe(true);
  });

  it('stand in README.md beside them as they are (node --import tsx tests/faults/write-tables.ts)', () => {
    const [from, to] = TABLE_MARKS;
    const text = readFileSync(new URL('./README.md', import.meta.url), 'utf8');
    expect(text.split(from)[1]?.split(to)[0]?.trim()).toBe(tablesText());
  });

  it('have beside them at least thirty defects that can still be planted, each with a test file that is there', () => {
    expect(defects.length).toBeGreaterThanOrEqual(30);
    const unplantable = defects.filter(
      ({ file, find, replace }) =>
        find === replace || !file.startsWith('src/') || readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8').split(find).length !== 2,
    );
    expect(unplantable.map(({ about }) => about)).toEqual([]);
    expect(defects.filter(({ test }) => !testExists([test])).map(({ about }) => about)).toEqual([]);
  });
});
