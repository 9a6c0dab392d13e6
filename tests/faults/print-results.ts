// Prints the table of faults with the results of a run, then each test that failed and why: node --import tsx tests/faults/print-results.ts unit.json e2e.json ...
import { readFileSync } from 'node:fs';
import { failedLines, faultResults, type RanTest, ranInBrowser, ranInUnit } from './results.ts';

const [unitPath = '', ...browserPaths] = process.argv.slice(2);

function ran(path: string, read: (report: never) => readonly RanTest[]): readonly RanTest[] {
  try {
    return read(JSON.parse(readFileSync(path, 'utf8')) as never);
  } catch {
    return [];
  }
}

const all = [...ran(unitPath, ranInUnit), ...browserPaths.flatMap((path) => ran(path, ranInBrowser))];
const results = faultResults(all);
const width = Math.max(...results.map(({ fault }) => fault.length));
for (const { fault, promises, result, testCount } of results)
  console.log(`${fault.padEnd(width)}  ${promises.padEnd(12)}  ${result.padEnd(8)}  ${testCount} tests`);
const failed = failedLines(all);
if (failed.length > 0) console.log(`\n${failed.join('\n')}`);
