import { build } from 'vite';
import { printShown, type Shown } from './figures.ts';

/** The shows by their names on the command line, and what each module exports; it says how its figures were found. */
const SHOWS: Readonly<Record<string, string>> = {
  house: 'showHouse',
  spine: 'showSpine',
  planner: 'showPlanner',
  place: 'showPlace',
  cockpit: 'showCockpit',
  ground: 'showGround',
  debrief: 'showDebrief',
  trust: 'showTrust',
  formation: 'showFormation',
  crowd: 'showCrowd',
  day: 'showDay',
  anywhere: 'showAnywhere',
  photograph: 'showPhotograph',
  field: 'showField',
  look: 'showLook',
};

const AT_THE_DESK: readonly string[] = ['planner', 'place', 'anywhere', 'photograph'];

const name = process.argv[2] ?? '';
const exported = Object.hasOwn(SHOWS, name) ? SHOWS[name] : undefined;
if (exported === undefined) {
  console.error(`Say which: npm run show -- ${Object.keys(SHOWS).join(' | ')}`);
  process.exitCode = 2;
} else {
  const module = (await import(`./${name}.ts`)) as Readonly<Record<string, () => Promise<Shown>>>;
  const show = module[exported];
  // What is shown is the app as it is now, built; the planner and the place are measured at the desk.
  if (!AT_THE_DESK.includes(name) && process.env['QUILLWIND_DIST'] === undefined) await build({ logLevel: 'warn' });
  if (show === undefined) throw new Error(`tests/show/${name}.ts does not export ${exported}`);
  printShown(await show(), name);
}
