import { fc } from '../../property.ts';
import { describe, expect, test } from 'vitest';
import { windVectorFrom } from '../../../src/core/earth/wind-vector.ts';
import { airPathEnd, airPathLengthMetres } from '../../../src/core/paths/air-path.ts';
import { fleetBoundSeconds } from '../../../src/core/order/fleet-bound.ts';
import { type FreeProblem, freeProblem } from '../../../src/core/order/free-problem.ts';
import { heightStepCost } from '../../../src/core/plan/height-step.ts';
import { idleShips, idleShipsWords } from '../../../src/core/plan/idle-ships.ts';
import { movedPlan } from '../../../src/core/plan/moved-plan.ts';
import { type Plan, wholeFlight } from '../../../src/core/plan/plan.ts';
import { planGeoJson } from '../../../src/core/plan/plan-geojson.ts';
import { planText, type PlanOptions } from '../../../src/core/plan/plan-text.ts';
import { shipModel } from '../../../src/core/paths/ship-model.ts';
import { smokeCrossings } from '../../../src/core/plan/smoke-crossing.ts';
import { strokeGraph } from '../../../src/core/order/stroke-graph.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { metresFromFeet, metresPerSecondFromKnots } from '../../../src/core/units/quantity.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { drawnText, optionsFor } from '../order/drawn-text.ts';
import { closestApproach } from './separation-checker.ts';

function planned(text: string, changes: Partial<PlanOptions> = {}): Plan {
  const result = planText(drawnText(text).letters, optionsFor(text, { proofLabels: 0, ...changes }));
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.plan;
}

function exported(plan: Plan) {
  return planGeoJson(plan, {
    site: { latitudeDegrees: 46.5, longitudeDegrees: 8.6, elevationMetres: 400 },
    layerHeightMetres: 3400,
    wind: windVectorFrom({ fromRadians: radiansFromDegrees(240), speedMetresPerSecond: 9 }),
    datumMilliseconds: Date.UTC(2027, 5, 20, 10, 0, 0),
    shipNames: ['LEAD', 'TWO', 'THREE', 'FOUR'],
    readMilliseconds: 0,
    viewElevationRadians: 0.6,
    hand: 'quickest',
  });
}

/** The least time in which two ships write a text when nobody minds how near they come: every division and order. */
function leastOfTwo(problem: FreeProblem): number {
  const { tasksOf, firstNodeOf, nodeCount, costSeconds, ownSeconds } = problem;
  const shortest = (left: readonly number[], last: number, soFar: number): number => {
    if (left.length === 0) return soFar;
    let least = Infinity;
    for (const task of left) {
      for (let node = firstNodeOf[task]!; node < firstNodeOf[task + 1]!; node += 1) {
        const seconds = last < 0 ? ownSeconds[node]! : costSeconds[last * nodeCount + node]!;
        least = Math.min(
          least,
          shortest(
            left.filter((other) => other !== task),
            node,
            soFar + seconds,
          ),
        );
      }
    }
    return least;
  };
  let least = Infinity;
  const choose = (letter: number, tasks: readonly number[]): void => {
    if (letter < tasksOf.length) {
      for (const alternative of tasksOf[letter]!) choose(letter + 1, [...tasks, ...alternative]);
      return;
    }
    for (let share = 0; share < 1 << tasks.length; share += 1) {
      const own = tasks.filter((_, index) => share & (1 << index));
      const other = tasks.filter((_, index) => !(share & (1 << index)));
      least = Math.min(least, Math.max(shortest(own, -1, 0), shortest(other, -1, 0)));
    }
  };
  choose(0, []);
  return least;
}

describe('the checker', () => {
  test('sees two ships on one line a slip apart', () => {
    const line = (ship: string, startSeconds: number) => ({
      properties: { ship, coordTimes: Array.from({ length: 61 }, (_, second) => new Date(1000 * (startSeconds + second)).toISOString()) },
      geometry: { coordinates: Array.from({ length: 61 }, (_, second) => [8.6, 46.5 + second * 0.0005]) },
    });
    const plan = { windFromDegrees: 0, windKnots: 0, features: [line('A', 0), line('B', 15)] };
    // 0.0005 degrees of latitude are 55.6 m: 15 s apart 834 m, and 278 m when one slips 10 s.
    expect(closestApproach(plan, 0).metres).toBeCloseTo(834, -1);
    expect(closestApproach(plan, 10).metres).toBeCloseTo(278, -1);
    expect(closestApproach(plan, 15).metres).toBeCloseTo(0, 0);
  });
});

describe('a formation', () => {
  const words = fc.constantFrom('BRAVE', 'QUICK', 'ALIVE', 'PROUD', 'WONDER', 'RAINBOW', 'SKY', 'OPEN', 'KINDNESS');
  const choices = fc.record({
    letterOrder: fc.constantFrom<'reading' | 'free'>('reading', 'free'),
    progress: fc.constantFrom<'into-wind' | 'free'>('into-wind', 'free'),
    ships: fc.integer({ min: 2, max: 4 }),
    separationMetres: fc.constantFrom(150, 300, 500),
  });

  test('keeps its ships apart at all times, by the exported plan, though they slip 10 s', () => {
    fc.assert(
      fc.property(words, choices, (text, changes) => {
        const result = planText(drawnText(text).letters, optionsFor(text, { proofLabels: 0, ...changes }));
        // What so many cannot divide is written by fewer; nothing is refused.
        if (!result.ok) throw new Error(result.problem.kind);
        const { metres } = closestApproach(exported(result.plan), 10);
        // The lines between vertices half a second apart run up to 0.4 m inside the arcs.
        expect(metres).toBeGreaterThanOrEqual(changes.separationMetres - 0.5);
      }),
      { numRuns: 12 },
    );
  });

  test('of four over OPEN in reading order is written by as many as can be kept apart', () => {
    const plan = planned('OPEN', { letterOrder: 'reading', progress: 'into-wind', ships: 4, separationMetres: 300 });
    expect(plan.ships.length).toBeGreaterThan(1);
    expect(closestApproach(exported(plan), 10).metres).toBeGreaterThanOrEqual(299.5);
  });

  test('names the ships that are left nothing to write, and refuses two of one name', () => {
    const [lead] = DEMO_JOB.ships;
    const ships = ['Lead', 'Two', 'Three'].map((name) => ({ ...lead!, name }));
    for (const text of ['I', 'J', '-', 'O', 'I\u2665']) {
      const result = planJob({ ...DEMO_JOB, text, ships });
      if (!result.ok) throw new Error(`${text}: ${result.problem.kind}`);
      const idle = idleShips({ ships }, result.value.plan);
      expect(idle.length).toBe(3 - result.value.plan.ships.length);
      expect(idleShipsWords({ ships }, result.value.plan)).toMatch(/nothing to write/);
    }
    expect(idleShipsWords({ ships }, { ships: [] })).toBe('Lead, Two, and Three have nothing to write in this plan, and can be left out.');
    const twice = planJob({ ...DEMO_JOB, ships: [lead!, { ...lead!, name: `${lead!.name.toUpperCase()} ` }] });
    expect(twice.ok ? null : twice.problem).toEqual({ kind: 'same-name', name: `${lead!.name.toUpperCase()} ` });
  });

  test.each(['CAKE', 'SKY', 'SUN', 'BRAVE'])('of a job over %s is planned 140 m farther apart than it asks, since ships stray from their places', (text) => {
    const [lead] = DEMO_JOB.ships;
    const result = planJob({ ...DEMO_JOB, text, ships: ['Lead', 'Two', 'Three'].map((name) => ({ ...lead!, name })) });
    if (!result.ok) throw new Error(result.problem.kind);
    expect(result.value.plan.separationMetres).toBeCloseTo(300, 0);
    expect(closestApproach(exported(result.value.plan), 10).metres).toBeGreaterThan(439);
  });

  test('writes every stroke once, each ship on one continuous line from its circle', () => {
    const plan = planned('RAINBOW', { ships: 3 });
    const written = new Map<number, number[]>();
    for (const ship of plan.ships) {
      let before = ship.joinUp!.leg;
      for (const leg of wholeFlight(ship).slice(1)) {
        const end = airPathEnd(before.path);
        expect(Math.hypot(end.airEastMetres - leg.path.start.airEastMetres, end.airNorthMetres - leg.path.start.airNorthMetres)).toBeLessThan(1e-3);
        expect(leg.startSeconds).toBeCloseTo(before.endSeconds, 6);
        if (leg.kind === 'smoke')
          for (const { drawnStrokeIndex } of leg.sources) written.set(leg.letterIndex, [...(written.get(leg.letterIndex) ?? []), drawnStrokeIndex]);
        before = leg as typeof before;
      }
    }
    for (const letter of drawnText('RAINBOW').letters) {
      const strokes = written.get(letter.letterIndex)!.toSorted((a, b) => a - b);
      expect(letter.alternatives.some((alternative) => alternative.strokes.length === strokes.length)).toBe(true);
      expect(strokes).toEqual(strokes.map((_, index) => index));
    }
  });

  test('waits on circles that nobody passes before they are left', () => {
    const plan = planned('WONDER', { ships: 3 });
    for (const waiting of plan.ships) {
      const { holdCentre, holdRadiusMetres, leg } = waiting.joinUp!;
      const rim = leg.path.start;
      expect(Math.hypot(rim.airEastMetres - holdCentre.airEastMetres, rim.airNorthMetres - holdCentre.airNorthMetres)).toBeCloseTo(holdRadiusMetres, 6);
      for (const other of plan.ships) {
        if (other === waiting) continue;
        for (const passing of wholeFlight(other)) {
          if (passing.startSeconds > leg.startSeconds) continue;
          const { airEastMetres, airNorthMetres } = passing.path.start;
          expect(Math.hypot(airEastMetres - holdCentre.airEastMetres, airNorthMetres - holdCentre.airNorthMetres)).toBeGreaterThan(holdRadiusMetres + 300);
        }
        const apart = Math.hypot(
          other.joinUp!.holdCentre.airEastMetres - holdCentre.airEastMetres,
          other.joinUp!.holdCentre.airNorthMetres - holdCentre.airNorthMetres,
        );
        expect(apart).toBeGreaterThan(2 * holdRadiusMetres + 300);
      }
    }
  });

  test('starts with the lead at the datum and ends with the last ship', () => {
    const plan = planned('BRAVE', { ships: 3 });
    expect(plan.ships[0]!.legs[0]!.startSeconds).toBe(0);
    expect(Math.min(...plan.ships.map(({ legs }) => legs[0]!.startSeconds))).toBe(0);
    expect(plan.durationSeconds).toBe(Math.max(...plan.ships.map(({ legs }) => legs.at(-1)!.endSeconds)));
    expect(plan.ships.map(({ shipIndex }) => shipIndex)).toEqual([0, 1, 2]);
    expect(plan.lowerBoundSeconds).toBeLessThanOrEqual(plan.durationSeconds);
  });

  test.each(['BRAVE', 'ALIVE', 'WONDER', 'RAINBOW'])('three ships finish %s at least 2.95 times sooner', (text) => {
    const alone = planned(text, { letterOrder: 'free', progress: 'free' });
    const three = planned(text, { letterOrder: 'free', progress: 'free', ships: 3 });
    expect(alone.durationSeconds / three.durationSeconds).toBeGreaterThanOrEqual(2.95);
  });

  test('more ships than strokes leaves the rest on the ground', () => {
    expect(planned('I', { ships: 3 }).ships).toHaveLength(1);
  });

  test('its bound never exceeds the best division of a short word, tried one by one', () => {
    const { frame, ...limits } = optionsFor('');
    for (const text of ['LI', 'VI', 'TL']) {
      const graph = strokeGraph(drawnText(text).letters, ({ alternatives }) => alternatives.map((_, index) => index), frame, shipModel(limits), {
        closedStarts: 2,
        fixedDirections: false,
      });
      const problem = freeProblem(graph);
      const bound = fleetBoundSeconds(problem, 2, 1e6);
      expect(bound).toBeLessThanOrEqual(leastOfTwo(problem) + 1e-6);
      expect(bound).toBeGreaterThan(0);
    }
  });

  test('its bound lies between the smoke shared out and what it takes', () => {
    const plan = planned('HI', { ships: 2, letterOrder: 'free', progress: 'free' });
    const alone = planned('HI', { letterOrder: 'free', progress: 'free' });
    expect(plan.lowerBoundSeconds).toBeLessThanOrEqual(plan.durationSeconds);
    expect(plan.lowerBoundSeconds).toBeGreaterThan(alone.ships[0]!.smokeSeconds / 2 - 1e-6);
  });
});

describe('the export of a formation', () => {
  test('tells each ship\u2019s waiting circle at its own height, and the distance promised', () => {
    const plan = planned('KINDNESS', { ships: 3, separationMetres: 305, slipSeconds: 12 });
    const { waitingCircles, separationMetres, slipSeconds, features } = exported(plan);
    expect([separationMetres, slipSeconds]).toEqual([305, 12]);
    expect(waitingCircles.map(({ ship, heightMetres }) => [ship, heightMetres])).toEqual([
      ['LEAD', expect.closeTo(3400 - 152.4, 6)],
      ['TWO', expect.closeTo(3400 + 152.4, 6)],
      ['THREE', expect.closeTo(3400 - 2 * 152.4, 6)],
    ]);
    for (const { ship, centreAtDatum, radiusMetres } of waitingCircles) {
      // The way from the circle begins on it: its distance from the centre at that moment, in a plane good to 1 in 1,000.
      const way = features.find(({ properties }) => properties['ship'] === ship)!;
      const seconds = (Date.parse(String(way.properties['start'])) - Date.UTC(2027, 5, 20, 10)) / 1000;
      const [east, north] = way.geometry.coordinates[0]!.map(
        (degrees, axis) => (degrees - centreAtDatum[axis]!) * (axis === 0 ? Math.cos(radiansFromDegrees(46.5)) : 1) * 111_195,
      );
      const wind = windVectorFrom({ fromRadians: radiansFromDegrees(240), speedMetresPerSecond: 9 });
      expect(Math.hypot(east! - wind.eastMetresPerSecond * seconds, north! - wind.northMetresPerSecond * seconds) / radiusMetres).toBeCloseTo(1, 1);
    }
  });
});

describe('smoke crossings', () => {
  test('a letter whose strokes cross is warned of, with the age of the smoke', () => {
    const plan = planned('X', { runInSeconds: 1, turningBankRadians: 1.2 });
    const crossings = smokeCrossings(plan);
    expect(crossings.length).toBeGreaterThanOrEqual(1);
    const [{ ageSeconds, atSeconds }] = crossings as [(typeof crossings)[0]];
    expect(ageSeconds).toBeGreaterThan(8);
    expect(ageSeconds).toBeLessThan(60);
    const stroke = plan.ships[0]!.legs[0]!;
    // The second stroke meets the first near its middle.
    expect(atSeconds - ageSeconds).toBeGreaterThan((stroke.endSeconds - stroke.startSeconds) * 0.3);
    expect(atSeconds - ageSeconds).toBeLessThan((stroke.endSeconds - stroke.startSeconds) * 0.7);
  });

  test('smoke older than a minute is not warned of', () => {
    // At 45 degrees and a run-in of 4 s the second stroke of an X meets the first after 72 s.
    expect(smokeCrossings(planned('X'))).toEqual([]);
    for (const { ageSeconds } of smokeCrossings(planned('RAINBOW'))) expect(ageSeconds).toBeLessThan(60);
  });

  test('an I alone crosses nothing', () => expect(smokeCrossings(planned('I'))).toEqual([]));

  test('smoke of a ship a height step away is not in the way', () => {
    const level = planned('KINDNESS', { ships: 3 });
    const stepped = planned('KINDNESS', { ships: 3, heightStepMetres: 60 });
    const between = (plan: Plan): number => smokeCrossings(plan).filter(({ shipIndex, smokeOfShipIndex }) => shipIndex !== smokeOfShipIndex).length;
    expect(between(stepped)).toBe(0);
    expect(between(level)).toBeGreaterThanOrEqual(between(stepped));
    expect(stepped.ships.map(({ heightStepMetres }) => heightStepMetres)).toEqual([0, 60, 120]);
  });
});

test('a height step of 60 m with 2 kt per 1,000 ft still reads, 150 m with 5 kt does not', () => {
  const cost = (stepMetres: number, knotsPerThousandFeet: number) =>
    heightStepCost(
      stepMetres,
      { eastPerSecond: metresPerSecondFromKnots(knotsPerThousandFeet) / metresFromFeet(1000), northPerSecond: 0 },
      Math.PI / 4,
      600,
      1200,
    );
  expect(cost(60, 2).parallaxMetres).toBeCloseTo(60, 9);
  expect(cost(60, 2).shearMetres).toBeCloseTo(121.5, 0);
  expect(cost(60, 2).reads).toBe(true);
  expect(cost(150, 5).reads).toBe(false);
});

test('moved, a formation keeps its shape: circles, ways in and ways out move with the text', () => {
  const plan = planned('BRAVE', { ships: 2 });
  const moved = movedPlan(plan, { airEastMetres: 4000, airNorthMetres: -2500 });
  plan.ships.forEach((ship, index) => {
    const other = moved.ships[index]!;
    const points = (one: typeof ship) => [one.joinUp!.holdCentre, ...wholeFlight(one).map(({ path }) => path.start)];
    points(ship).forEach((point, place) => {
      expect(points(other)[place]!.airEastMetres - point.airEastMetres).toBeCloseTo(4000, 6);
      expect(points(other)[place]!.airNorthMetres - point.airNorthMetres).toBeCloseTo(-2500, 6);
    });
  });
});

test('a departure runs straight out of the text', () => {
  const plan = planned('BRAVE', { ships: 2 });
  for (const { departure } of plan.ships) expect(airPathLengthMetres(departure!.path)).toBeGreaterThan(500);
});
