import { fc } from '../../property.ts';
import loadHighs from 'highs';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { proveBound } from '../../../src/core/order/free-bound.ts';
import { type FreeProblem, freeProblem } from '../../../src/core/order/free-problem.ts';
import { searchFreely } from '../../../src/core/order/free-search.ts';
import { lettersOfStrokes } from '../../../src/core/letters/drawn-letter.ts';
import { flyableAlternatives } from '../../../src/core/plan/flyable.ts';
import { shipModel } from '../../../src/core/paths/ship-model.ts';
import { strokeGraph } from '../../../src/core/order/stroke-graph.ts';
import { letterTimes } from '../../../src/core/plan/budget.ts';
import { planGap } from '../../../src/core/plan/plan.ts';
import { planText, type PlanOptions } from '../../../src/core/plan/plan-text.ts';
import { finishesInOrder, sequenceRule } from '../../../src/core/order/sequence-rule.ts';
import reference from '../../reference/sequencing.json' with { type: 'json' };
import { drawnText, optionsFor } from './drawn-text.ts';
import { leastByHighs } from './order-program.ts';

/** A problem from bare tables: strokes per alternative per letter, two ways to fly each, and a cost for each pair. */
function tableProblem(strokesOf: readonly (readonly number[])[], own: (node: number) => number, cost: (from: number, to: number) => number): FreeProblem {
  const letterOf: number[] = [];
  const alternativeOf: number[] = [];
  const tasksOf = strokesOf.map((alternatives, letter) =>
    alternatives.map((strokes, alternative) =>
      Array.from({ length: strokes }, () => {
        letterOf.push(letter);
        alternativeOf.push(alternative);
        return letterOf.length - 1;
      }),
    ),
  );
  const nodeCount = 2 * letterOf.length;
  const taskOf = Int32Array.from({ length: nodeCount }, (_, node) => node >> 1);
  const costSeconds = new Float64Array(nodeCount * nodeCount).fill(Infinity);
  for (let from = 0; from < nodeCount; from += 1) {
    for (let to = 0; to < nodeCount; to += 1) {
      const one = taskOf[from]!;
      const other = taskOf[to]!;
      if (one === other || (letterOf[one] === letterOf[other] && alternativeOf[one] !== alternativeOf[other])) continue;
      costSeconds[from * nodeCount + to] = cost(from, to);
    }
  }
  return {
    // Only sequence rules with a time limit look into the graph.
    graph: { smokeSeconds: new Float64Array(nodeCount) } as FreeProblem['graph'],
    nodeCount,
    taskOf,
    firstNodeOf: Int32Array.from({ length: letterOf.length + 1 }, (_, task) => 2 * task),
    letterOf: Int32Array.from(letterOf),
    alternativeOf: Int32Array.from(alternativeOf),
    tasksOf,
    ownSeconds: Float64Array.from({ length: nodeCount }, (_, node) => own(node)),
    costSeconds,
  };
}

/** Every order there is, tried one by one: the truth for small problems. */
function leastByTrying(problem: FreeProblem, rankOf: readonly number[] | null): number {
  let least = Infinity;
  const choose = (letter: number, tasks: number[]): void => {
    if (letter < problem.tasksOf.length) {
      for (const alternative of problem.tasksOf[letter]!) choose(letter + 1, [...tasks, ...alternative]);
      return;
    }
    const visit = (left: readonly number[], order: readonly number[], last: number, soFar: number): void => {
      if (soFar >= least) return;
      if (left.length === 0) {
        if (rankOf === null || finishesInOrder(problem, order, rankOf)) least = soFar;
        return;
      }
      for (const task of left) {
        for (const node of [2 * task, 2 * task + 1]) {
          const seconds = last < 0 ? problem.ownSeconds[node]! : problem.costSeconds[last * problem.nodeCount + node]!;
          visit(
            left.filter((other) => other !== task),
            [...order, task],
            node,
            soFar + seconds,
          );
        }
      }
    };
    visit(tasks, [], -1, 0);
  };
  choose(0, []);
  return least;
}

function run<Step, Result>(steps: Generator<Step, Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

// Solved to proven optimality by HiGHS, GLPK, CBC and exhaustive search; see the file.
describe('the instance of tests/reference/sequencing.json', () => {
  const ends = reference.strokes.flatMap(
    ({ a, b }) =>
      [
        [a, b],
        [b, a],
      ] as const,
  );
  const way = ([x0, y0]: readonly number[], [x1, y1]: readonly number[]): number => Math.round(Math.hypot(x1! - x0!, y1! - y0!) * (x1! > x0! ? 1.3 : 1));
  const problem = tableProblem(
    reference.strokes.map(() => [1]),
    (node) => way(reference.start, ends[node]![0]),
    (from, to) => way(ends[from]![1], ends[to]![0]),
  );

  test('HiGHS solves its linear program to the published optimum', async () => {
    const highs = await loadHighs();
    const solved = highs.solve(readFileSync(new URL('../../reference/sequencing.lp', import.meta.url), 'utf8'));
    expect(solved.Status).toBe('Optimal');
    expect(solved.ObjectiveValue).toBeCloseTo(reference.optimum, 6);
  });

  test('the search finds the optimum and its order, from the worst start', () => {
    const found = run(searchFreely(problem, [5, 3, 1, 0, 2, 4], sequenceRule(problem, null, Infinity), 600, 1));
    expect(found.costSeconds).toBe(reference.optimum);
    expect(found.nodes.map((node) => ({ stroke: node >> 1, reversed: node % 2 === 1 }))).toEqual(reference.order);
  });

  test('the proof closes the gap, and finds the optimum by itself when it is told a worse one', () => {
    expect(run(proveBound(problem, reference.optimum, null, 1e5)).lowerBoundSeconds).toBeCloseTo(reference.optimum, 6);
    const told = run(proveBound(problem, reference.optimum + 200, null, 1e5));
    expect(told.lowerBoundSeconds).toBeCloseTo(reference.optimum, 6);
    expect(told.order?.map((node) => node >> 1)).toEqual(reference.order.map(({ stroke }) => stroke));
  });
});

describe('against trying every order', () => {
  const shape = fc.array(fc.constantFrom([1], [2], [1, 2], [2, 3], [1, 1]), { minLength: 2, maxLength: 3 });
  const table = fc.tuple(shape, fc.integer({ min: 1, max: 1_000_000 }));
  const made = (strokesOf: readonly (readonly number[])[], salt: number): FreeProblem => {
    const number = (a: number, b: number): number => ((Math.imul(a * 7919 + b * 104_729 + salt, 2_654_435_761) >>> 8) % 900) + 20;
    return tableProblem(
      strokesOf,
      (node) => number(node, 9999),
      (from, to) => number(from, to),
    );
  };

  test('the bound never exceeds the least cost, and reaches it', () => {
    fc.assert(
      fc.property(table, fc.boolean(), ([strokesOf, salt], ordered) => {
        const problem = made(strokesOf, salt);
        const rankOf = ordered ? strokesOf.map((_, letter) => (letter + 1) % strokesOf.length) : null;
        const least = leastByTrying(problem, rankOf);
        const toldTrue = run(proveBound(problem, least, rankOf, 1e6));
        expect(toldTrue.lowerBoundSeconds).toBeCloseTo(least, 5);
        // Told a worse cost, it may not claim more than the truth, however near.
        for (const worse of [1.003, 1.1]) expect(run(proveBound(problem, least * worse, rankOf, 1e6)).lowerBoundSeconds).toBeCloseTo(least, 5);
      }),
      { numRuns: 60 },
    );
  });

  test('however little work is spent, the bound stays below the least cost', () => {
    fc.assert(
      fc.property(table, fc.integer({ min: 0, max: 300 }), ([strokesOf, salt], labels) => {
        const problem = made(strokesOf, salt);
        const least = leastByTrying(problem, null);
        expect(run(proveBound(problem, least, null, labels)).lowerBoundSeconds).toBeLessThanOrEqual(least + 1e-5);
      }),
      { numRuns: 40 },
    );
  });

  /** Strokes somewhere in a plane of 300 by 100 seconds, and the way between them. */
  const plane = (strokesOf: readonly (readonly number[])[], salt: number): FreeProblem => {
    const end = (node: number, side: number): readonly [number, number] => {
      const mixed = Math.imul((node >> 1) * 2 + ((node + side) & 1) + salt, 2_654_435_761) >>> 8;
      return [mixed % 300, (mixed >>> 9) % 100];
    };
    const way = ([x0, y0]: readonly [number, number], [x1, y1]: readonly [number, number]): number => Math.hypot(x1 - x0, y1 - y0);
    return tableProblem(
      strokesOf,
      (node) => way(end(node, 0), end(node, 1)),
      (from, to) => way(end(from, 1), end(to, 0)) + way(end(to, 0), end(to, 1)),
    );
  };

  /** One search in a thousand or so ends 0.2 % off; which one depends on its chances, so it is begun thrice. */
  test('the search finds the least cost of strokes in a plane', () => {
    fc.assert(
      fc.property(table, fc.boolean(), ([strokesOf, salt], ordered) => {
        const problem = plane(strokesOf, salt);
        const rankOf = ordered ? strokesOf.map((_, letter) => letter) : null;
        const start = problem.tasksOf.flatMap((alternatives) => alternatives[0]!);
        const costs = [3, 4, 5].map((seed) => run(searchFreely(problem, start, sequenceRule(problem, rankOf, Infinity), 800, seed)).costSeconds);
        expect(Math.min(...costs)).toBeCloseTo(leastByTrying(problem, rankOf), 5);
      }),
      { numRuns: 40, examples: [[[[[2, 3], [1], [2, 3]], 89_419], true]] },
    );
  });
});

function planned(text: string, changes: Partial<PlanOptions>) {
  const result = planText(drawnText(text).letters, optionsFor(text, changes));
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.plan;
}

test('a drawing of 150 strokes, a third of them closed, is planned, each stroke once', { timeout: 60_000 }, () => {
  const strokes = Array.from({ length: 150 }, (_, index) => {
    const start = { xMetres: (index % 15) * 1500, yMetres: Math.floor(index / 15) * 1500, directionRadians: index };
    return index % 3 === 0
      ? { path: { start, segments: [{ lengthMetres: 800 * Math.PI, curvaturePerMetre: 1 / 400 }] }, closed: true }
      : { path: { start, segments: [{ lengthMetres: 900, curvaturePerMetre: 0 }] }, closed: false };
  });
  const result = planText(lettersOfStrokes(strokes), optionsFor('', { letterOrder: 'free', progress: 'free' }));
  if (!result.ok) throw new Error(result.problem.kind);
  const written = result.plan.ships[0]!.legs.flatMap((leg) => (leg.kind === 'smoke' ? [leg.letterIndex] : []));
  expect(written.toSorted((a, b) => a - b)).toEqual(strokes.map((_, index) => index));
  expect(result.plan.lowerBoundSeconds).toBeLessThanOrEqual(result.plan.durationSeconds);
});

test('HiGHS proves the same least time for whole words', async () => {
  for (const text of ['DUCK', 'SKY']) {
    const options = optionsFor(text, { letterOrder: 'free', progress: 'free' });
    const model = shipModel(options);
    const { letters } = drawnText(text);
    const graph = strokeGraph(letters, (letter) => flyableAlternatives(letter, model), options.frame, model, { closedStarts: 16, fixedDirections: false });
    expect(await leastByHighs(freeProblem(graph), 120)).toBeCloseTo(planned(text, options).durationSeconds, 3);
  }
}, 120_000);

describe('words in free letter order', () => {
  test.each(['SKY', 'OPEN', 'BRAVE', 'QUICK'])('%s is proven best, into the wind and free', (text) => {
    for (const progress of ['into-wind', 'free'] as const) expect(planGap(planned(text, { letterOrder: 'free', progress }))).toBeLessThan(1e-9);
  });

  test('the same seed gives the same plan', () => {
    const options = { letterOrder: 'free', progress: 'free', seed: 5, proofLabels: 0 } as const;
    expect(planned('WONDER', options)).toEqual(planned('WONDER', options));
  });

  test('into the wind, letters are finished one after another upwind', () => {
    const times = letterTimes(planned('RAINBOW', { letterOrder: 'free', proofLabels: 0 }));
    times.forEach(({ completedSeconds }, index) => {
      if (index > 0) expect(completedSeconds).toBeLessThan(times[index - 1]!.completedSeconds);
    });
  });

  test('the cap on unfinished letters holds', () => {
    const free = { letterOrder: 'free', progress: 'free', proofLabels: 0 } as const;
    const longest = (changes: Partial<PlanOptions>): number =>
      Math.max(...letterTimes(planned('HATEFULL', changes)).map(({ begunSeconds, completedSeconds }) => completedSeconds - begunSeconds));
    const uncapped = longest(free);
    const capped = longest({ ...free, longestUnfinishedSeconds: uncapped - 10 });
    expect(capped).toBeLessThanOrEqual(uncapped - 10);
  });
});
