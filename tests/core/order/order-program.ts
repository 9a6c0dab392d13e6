import loadHighs from 'highs';
import type { FreeProblem } from '../../../src/core/order/free-problem.ts';

/**
 * The free order as a mixed integer program in the LP format, for HiGHS: one variable for each arc, start and end,
 * one for each alternative of a letter; flow through the nodes; Miller, Tucker and Zemlin (1960) against subtours.
 */
export function orderProgram(problem: FreeProblem): string {
  const { nodeCount, taskOf, letterOf, alternativeOf, tasksOf, ownSeconds, costSeconds } = problem;
  const into: string[][] = Array.from({ length: nodeCount }, () => []);
  const out: string[][] = Array.from({ length: nodeCount }, () => []);
  const objective: string[] = [];
  const binaries: string[] = [];
  const between = new Map<string, string[]>();
  const variable = (name: string, seconds: number): string => {
    objective.push(`${seconds.toFixed(6)} ${name}`);
    binaries.push(name);
    return name;
  };
  const starts: string[] = [];
  const ends: string[] = [];
  for (let node = 0; node < nodeCount; node += 1) {
    const start = variable(`s${node}`, ownSeconds[node]!);
    const end = variable(`e${node}`, 0);
    into[node]!.push(start);
    out[node]!.push(end);
    starts.push(start);
    ends.push(end);
    for (let to = 0; to < nodeCount; to += 1) {
      const seconds = costSeconds[node * nodeCount + to]!;
      if (seconds === Infinity) continue;
      const arc = variable(`x${node}_${to}`, seconds);
      out[node]!.push(arc);
      into[to]!.push(arc);
      const key = `${taskOf[node]} ${taskOf[to]}`;
      between.set(key, [...(between.get(key) ?? []), arc]);
    }
  }
  const rows = [`${starts.join(' + ')} = 1`, `${ends.join(' + ')} = 1`];
  for (let node = 0; node < nodeCount; node += 1) rows.push(`${into[node]!.join(' + ')} - ${out[node]!.join(' - ')} = 0`);
  tasksOf.forEach((alternatives, letter) => {
    const chosen = alternatives.map((_, alternative) => `z${letter}_${alternative}`);
    binaries.push(...chosen);
    rows.push(`${chosen.join(' + ')} = 1`);
  });
  const tasks = letterOf.length;
  for (let task = 0; task < tasks; task += 1) {
    const visits = into.filter((_, node) => taskOf[node] === task).flat();
    rows.push(`${visits.join(' + ')} - z${letterOf[task]}_${alternativeOf[task]} = 0`);
  }
  for (const [key, arcs] of between) {
    const [from, to] = key.split(' ');
    rows.push(`q${from} - q${to} + ${arcs.map((arc) => `${tasks} ${arc}`).join(' + ')} <= ${tasks - 1}`);
  }
  const bounds = Array.from({ length: tasks }, (_, task) => `0 <= q${task} <= ${tasks - 1}`);
  return [
    'Minimize',
    ` obj: ${objective.join(' + ')}`,
    'Subject To',
    ...rows.map((row, index) => ` r${index}: ${row}`),
    'Bounds',
    ...bounds.map((bound) => ` ${bound}`),
    'Binary',
    ` ${binaries.join(' ')}`,
    'End',
  ].join('\n');
}

/** The least cost by HiGHS, proven; null when it did not finish in time. */
export async function leastByHighs(problem: FreeProblem, timeLimitSeconds: number): Promise<number | null> {
  const highs = await loadHighs();
  const solved = highs.solve(orderProgram(problem), { time_limit: timeLimitSeconds, mip_rel_gap: 1e-7 });
  return solved.Status === 'Optimal' ? solved.ObjectiveValue : null;
}
