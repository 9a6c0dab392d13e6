import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { plantDefects } from './defects.ts';
import type { Figure, Shown } from './figures.ts';
import { plantField } from './house-field.ts';
import { importCircles, roomOf, sourceImports } from './house-imports.ts';
import { readingsOnScreens } from './house-reading.ts';
import { atLeast, atMost, reported } from './limits.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const SCREENS = ['jobs', 'draw', 'brief', 'write', 'ground', 'debrief'].map((screen) => `ui/${screen}`);
/** What each folder of src may import besides itself, from tests/architecture.test.ts, as a rank: only downwards. */
const RANKS: Readonly<Record<string, number>> = {
  core: 0,
  workers: 1,
  store: 1,
  sensors: 1,
  sound: 1,
  link: 1,
  hub: 1,
  app: 2,
  ui: 3,
  main: 4,
  'main.tsx': 4,
  sw: 1,
};
const READING_JOBS = 50;
const READING_SEED = 20_270_619;

/** The house: who imports whom, what is told once, what the tests would notice, and what the screens say of one job. */
export async function showHouse(): Promise<Shown> {
  const imports = importFigures();
  const lines = sourceLines();
  const field = plantField();
  const figures: Figure[] = [
    ...imports,
    atMost('places touched for a new number of the job', field.places, 3, '', 0),
    atMost(`types, tests or schema that break on it${field.why === '' ? '' : ` (${field.why})`}`, field.holds ? 0 : 1, 0, '', 0),
    atMost('places where a wind row becomes SI', windConversions(), 1, '', 0),
    atMost('unused exports and files', unusedCount(), 0, '', 0),
    atMost('lines of src TypeScript', lines, 38_000, '', 0),
    ...timeFigures(),
  ];
  const defects = plantDefects(({ about, noticed, by }) =>
    process.stdout.write(`      ${noticed ? 'noticed' : 'MISSED '}  ${about}${by === '' ? '' : `, by: ${by}`}\n`),
  );
  const noticed = defects.filter((defect) => defect.noticed).length;
  figures.push(atLeast('planted defects', defects.length, 30, '', 0), atLeast('planted defects noticed', noticed, defects.length, `of ${defects.length}`, 0));
  const readings = await readingsOnScreens(READING_JOBS, READING_SEED);
  const equal = readings.filter(({ draw, brief, ground, debrief }) => draw !== null && new Set([draw, brief, ground, debrief]).size === 1);
  for (const { text, draw, brief, ground, debrief } of readings.filter((reading) => !equal.includes(reading)))
    process.stdout.write(`      ${text}: draw ${draw}, brief ${brief}, ground ${ground}, debrief ${debrief}\n`);
  figures.push(
    reported('different readings among those jobs', String(new Set(readings.map(({ draw }) => draw)).size)),
    atLeast('random jobs whose reading is equal on Draw, Brief, Ground and Debrief, to the second', equal.length, READING_JOBS, `of ${READING_JOBS}`, 0),
  );
  return {
    figures,
    headline: `${equal.length} of ${READING_JOBS} random jobs read equally long on four screens; ${noticed} of ${defects.length} planted defects are noticed; a number of the job stands in ${field.places} places.`,
  };
}

function importFigures(): Figure[] {
  const imports = sourceImports();
  const pairs = [...imports].flatMap(([from, targets]) => targets.filter((to) => to.startsWith('src/')).map((to) => [from, to] as const));
  const rank = (path: string): number => RANKS[path.split('/')[1] ?? ''] ?? 4;
  const up = pairs.filter(([from, to]) => rank(to) > rank(from));
  const rooms = new Set(pairs.map(([from, to]) => `${roomOf(from)}>${roomOf(to)}`));
  const mutual = [...rooms].filter((pair) => {
    const [one = '', other = ''] = pair.split('>');
    return one < other && one.startsWith('core/') && other.startsWith('core/') && rooms.has(`${other}>${one}`);
  });
  const between = pairs.filter(([from, to]) => SCREENS.includes(roomOf(from)) && SCREENS.includes(roomOf(to)) && roomOf(from) !== roomOf(to));
  const circles = importCircles(imports);
  const counts = new Map<string, number>();
  for (const path of imports.keys()) counts.set(dirname(path), (counts.get(dirname(path)) ?? 0) + 1);
  const [fullest = ['', 0]] = [...counts].sort((one, other) => other[1] - one[1]);
  return [
    atMost(`imports that run up${named(up.map((pair) => pair.join(' > ')))}`, up.length, 0, '', 0),
    atMost(`rooms of core that import each other${named(mutual)}`, mutual.length, 0, '', 0),
    atMost(`screens that import another${named(between.map((pair) => pair.join(' > ')))}`, between.length, 0, '', 0),
    atMost(`circles of imports, types included${named(circles.map((circle) => circle.join(', ')))}`, circles.length, 0, '', 0),
    atMost(`files in the fullest room, ${fullest[0]}`, fullest[1], 30, '', 0),
  ];
}

const named = (found: readonly string[]): string => (found.length === 0 ? '' : `: ${found.slice(0, 3).join('; ')}`);

function sourceLines(): number {
  return [...sourceImports().keys()].reduce((sum, path) => sum + readFileSync(join(root, path), 'utf8').split('\n').length - 1, 0);
}

/** Files in which the speed of a row of winds is turned from knots, other than the parser's own. */
function windConversions(): number {
  return [...sourceImports().keys()].filter((path) => {
    const code = readFileSync(join(root, path), 'utf8');
    return /JobWind/.test(code) && /metresPerSecondFromKnots\(\w*\.?speedKnots\)/.test(code);
  }).length;
}

function unusedCount(): number {
  return [[], ['--production']].reduce((sum, extra) => {
    const { stdout } = spawnSync('npx', ['knip', '-c', '.knip.json', '--no-config-hints', '--reporter', 'json', ...extra], { cwd: root, encoding: 'utf8' });
    const { issues } = JSON.parse(stdout) as { readonly issues: readonly Readonly<Record<string, unknown>>[] };
    return (
      sum +
      issues.reduce((each, issue) => each + Object.values(issue).reduce<number>((count, value) => count + (Array.isArray(value) ? value.length : 0), 0), 0)
    );
  }, 0);
}

/** The quick check is run here; of `npm test`, what its last run took. */
function timeFigures(): Figure[] {
  const startedAt = Date.now();
  const { status } = spawnSync('node', ['.ci/quick.mjs'], { cwd: root, stdio: 'ignore' });
  const seconds = (Date.now() - startedAt) / 1000;
  const path = join(root, 'node_modules/.cache/results/seconds.json');
  const last = existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as { readonly seconds: number }).seconds : null;
  return [
    atMost('npm run quick', status === 0 ? seconds : Infinity, 60, 's', 0),
    last === null
      ? reported('npm test, last run here', 'not run since the last install', 'at most 720 s')
      : atMost('npm test, last run here', last, 720, 's', 0),
  ];
}
