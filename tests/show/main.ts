import { printShown, type Shown } from './figures.ts';

/** Every show by its name on the command line; each module says how its figures were found. */
const SHOWS: Readonly<Record<string, () => Promise<Shown>>> = {
  spine: async () => (await import('./spine.ts')).showSpine(),
  planner: async () => (await import('./planner.ts')).showPlanner(),
  place: async () => (await import('./place.ts')).showPlace(),
  cockpit: async () => (await import('./cockpit.ts')).showCockpit(),
  ground: async () => (await import('./ground.ts')).showGround(),
  debrief: async () => (await import('./debrief.ts')).showDebrief(),
  trust: async () => (await import('./trust.ts')).showTrust(),
};

const name = process.argv[2] ?? '';
const show = Object.hasOwn(SHOWS, name) ? SHOWS[name] : undefined;
if (show === undefined) {
  console.error(`Say which: npm run show -- ${Object.keys(SHOWS).join(' | ')}`);
  process.exitCode = 2;
} else {
  printShown(await show());
}
