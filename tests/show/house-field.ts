import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const PARTS = ['src', 'tests', 'e2e', 'public', 'vite.config.ts', 'package.json', 'tsconfig.json', '.tsconfig.base.json', '.ci', 'README.md', 'DEVELOPERS.md'];

/** One line put in after the line that holds `after`. */
const TOUCHES: readonly { readonly file: string; readonly after: string; readonly line: string }[] = [
  {
    file: 'src/core/job/job-schema.ts',
    after: 'separationFeet: number([0, 20_000]',
    line: "        runwayFeet: later(number([0, 20_000], 'Planted by a test.'), 3000),",
  },
  { file: 'src/app/draw/job-fields.ts', after: "'options.separationFeet'", line: "  'options.runwayFeet': { label: 'Runway', unit: 'ft', step: 100 }," },
  { file: 'src/core/job/demo-job.ts', after: 'separationFeet: 984,', line: '    runwayFeet: 3000,' },
];

export interface PlantedField {
  /** Files touched by hand for a new number of the job. */
  readonly places: number;
  /** Whether types, the job's own tests and the published schema then hold, and what fails where not. */
  readonly holds: boolean;
  readonly why: string;
}

/**
 * Adds a number to the job in a copy of the project, by hand in the places of {@link TOUCHES} and nowhere else, and
 * lets types and tests judge: it must be read, limited, written, asked for in a form, and stand in the published schema.
 */
export function plantField(): PlantedField {
  const copy = mkdtempSync(join(tmpdir(), 'quillwind-field-'));
  try {
    for (const part of PARTS) cpSync(join(root, part), join(copy, part), { recursive: true });
    symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'));
    for (const { file, after, line } of TOUCHES) {
      const lines = readFileSync(join(copy, file), 'utf8').split('\n');
      const at = lines.findIndex((each) => each.includes(after));
      if (at < 0) throw new Error(`${file} does not hold ${after}; correct tests/show/house-field.ts`);
      lines.splice(at + 1, 0, line);
      writeFileSync(join(copy, file), lines.join('\n'));
    }
    writeFileSync(join(copy, 'tests/core/job/planted-field.test.ts'), PLANTED_TEST);
    const steps = [
      ['tsc', '-p', 'src/tsconfig.json', '--noEmit', '--composite', 'false', '--incremental', 'false', '--emitDeclarationOnly', 'false'],
      ['tsx', '.ci/write-schemas.ts'],
      ['vitest', 'run', 'tests/core/job'],
    ];
    for (const [command = '', ...args] of steps) {
      const { status, stdout, stderr } = spawnSync('npx', [command, ...args], { cwd: copy, encoding: 'utf8', timeout: 300_000 });
      if (status !== 0) return { places: TOUCHES.length, holds: false, why: `${command}: ${`${stdout}${stderr}`.slice(-400)}` };
    }
    return { places: TOUCHES.length, holds: true, why: '' };
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

const PLANTED_TEST = `
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { jobField, withJobNumber } from '../../../src/app/draw/job-fields.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { parseJob } from '../../../src/core/job/parse-job.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';

it('the planted number is typed, limited, asked for, written, read and published', () => {
  const job = withJobNumber(DEMO_JOB, 'options.runwayFeet', 4200);
  expect(job.options.runwayFeet).toBe(4200);
  expect(jobField('options.runwayFeet')).toMatchObject({ label: 'Runway', limits: [0, 20_000] });
  expect(parseJob(writeJob(job))).toEqual({ ok: true, value: job });
  expect(parseJob(writeJob({ ...job, options: { ...job.options, runwayFeet: -1 } })).ok).toBe(false);
  const older = parseJob(writeJob(job).replace(/\\n *"runwayFeet": 4200,?/, ''));
  expect(older.ok && older.value.options.runwayFeet).toBe(3000);
  expect(readFileSync(new URL('../../../public/quillwind-job.schema.json', import.meta.url), 'utf8')).toContain('runwayFeet');
});
`;
