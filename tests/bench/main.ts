/** The benches by their names on the command line, and what each module exports. */
const BENCHES: Readonly<Record<string, string>> = {
  planner: 'benchPlanner',
  'planner-words': 'benchPlannerWords',
  'planner-throttled': 'benchPlannerThrottled',
  cockpit: 'benchCockpit',
  debrief: 'benchDebrief',
  hub: 'benchHub',
};

const name = process.argv[2] ?? 'planner';
const exported = Object.hasOwn(BENCHES, name) ? BENCHES[name] : undefined;
if (exported === undefined) {
  console.error(`Say which: npm run bench -- ${Object.keys(BENCHES).join(' | ')}`);
  process.exitCode = 2;
} else {
  const module = (await import(`./${name}.ts`)) as Readonly<Record<string, () => Promise<void>>>;
  const bench = module[exported];
  if (bench === undefined) throw new Error(`tests/bench/${name}.ts does not export ${exported}`);
  await bench();
}
