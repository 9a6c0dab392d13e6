import { describe, expect, test } from 'vitest';
import { advanceAirPose, airPathEnd, airPathLengthMetres, type AirPose } from '../../../src/core/paths/air-path.ts';
import { lettersOfStrokes } from '../../../src/core/letters/drawn-letter.ts';
import { repositionBetween } from '../../../src/core/paths/reposition.ts';
import { rollLeadSeconds, shipModel } from '../../../src/core/paths/ship-model.ts';
import { curvedEndsBetween, repositionSeconds, strokeGraph } from '../../../src/core/order/stroke-graph.ts';
import { radiansFromDegrees } from '../../../src/core/units/angle.ts';
import { drawnText, optionsFor } from '../order/drawn-text.ts';

const model = shipModel(optionsFor(''));
const speed = model.trueAirspeedMetresPerSecond;
const end: AirPose = { airEastMetres: 200, airNorthMetres: -50, directionRadians: 0.7 };
const ahead = (seconds: number): AirPose => advanceAirPose(end, seconds * speed, 0);

describe('from stroke to stroke', () => {
  test('strokes that touch and continue each other need no way', () => {
    expect(repositionBetween(end, ahead(0), model, 0)).toMatchObject({ kind: 'none', seconds: 0 });
  });

  test('a stroke two seconds straight ahead is a pause of two seconds', () => {
    const way = repositionBetween(end, ahead(2), model, 0);
    expect(way.kind).toBe('pause');
    expect(way.seconds).toBeCloseTo(2, 9);
    expect(way.path.segments).toHaveLength(1);
  });

  test('a pause too short for the valve, or for rolling out of and into a curve, is flown round', () => {
    expect(repositionBetween(end, ahead(0.9), model, 0).kind).toBe('turns');
    expect(repositionBetween(end, ahead(1.5), model, 0).kind).toBe('pause');
    expect(repositionBetween(end, ahead(1.5), model, 2).kind).toBe('turns');
  });

  test('a stroke half a metre off the line is no join', () => {
    const aside = advanceAirPose({ ...ahead(2), directionRadians: end.directionRadians + Math.PI / 2 }, 0.5, 0);
    expect(repositionBetween(end, { ...aside, directionRadians: end.directionRadians }, model, 0).kind).toBe('turns');
  });

  test('the rest is run-out, roll, shortest path, roll, run-in, and arrives', () => {
    const start: AirPose = { airEastMetres: 900, airNorthMetres: 2500, directionRadians: 4 };
    const way = repositionBetween(end, start, model, 0);
    expect(way.kind).toBe('turns');
    const arrived = airPathEnd(way.path);
    expect(Math.hypot(arrived.airEastMetres - start.airEastMetres, arrived.airNorthMetres - start.airNorthMetres)).toBeLessThan(1e-6);
    expect(way.path.segments[0]!.lengthMetres).toBeGreaterThanOrEqual((model.runOutSeconds + model.rollLeadSeconds) * speed - 1e-6);
    expect(way.path.segments.at(-1)!.lengthMetres).toBeGreaterThanOrEqual((model.runInSeconds + model.rollLeadSeconds) * speed - 1e-6);
    expect(way.seconds).toBeGreaterThanOrEqual(airPathLengthMetres(way.path) / speed - 1e-9);
  });

  test('a turn that passes straight into its opposite costs two leads more for each change', () => {
    // Turned round over the spot it stands on: right, left, right.
    const depart = advanceAirPose(end, (model.runOutSeconds + model.rollLeadSeconds) * speed, 0);
    const back = { ...depart, directionRadians: depart.directionRadians + Math.PI };
    const start = advanceAirPose(back, (model.runInSeconds + model.rollLeadSeconds) * speed, 0);
    const way = repositionBetween(end, start, model, 0);
    const turns = way.path.segments.filter(({ curvaturePerMetre }) => curvaturePerMetre !== 0);
    expect(turns).toHaveLength(3);
    expect(way.seconds - airPathLengthMetres(way.path) / speed).toBeCloseTo(4 * model.rollLeadSeconds, 9);
  });

  test('the optimiser counts the seconds that the path takes, for every pair of ways to fly a word', () => {
    const { frame, ...limits } = optionsFor('');
    // Beside a word, strokes in line with gaps too short and long enough for a pause, and none.
    const inLine = [0, 900, 1840, 2900].map((xMetres) => ({
      path: { start: { xMetres, yMetres: 0, directionRadians: 0 }, segments: [{ lengthMetres: 900, curvaturePerMetre: 0 }] },
      closed: false,
    }));
    const graph = strokeGraph(
      [...drawnText('BOX').letters, ...lettersOfStrokes(inLine)],
      ({ alternatives }) => alternatives.map((_, index) => index),
      frame,
      shipModel(limits),
      {
        closedStarts: 4,
        fixedDirections: false,
      },
    );
    let pairs = 0;
    graph.nodes.forEach((from, one) =>
      graph.nodes.forEach((to, other) => {
        const way = repositionBetween(airPathEnd(from.path), to.path.start, graph.model, curvedEndsBetween(graph, one, other));
        expect(repositionSeconds(graph, one, other)).toBeCloseTo(way.seconds, 6);
        pairs += 1;
      }),
    );
    expect(pairs).toBe(graph.nodes.length ** 2);
  });
});

test('a roll to 45 degrees at 30 degrees a second loses 0.838 s, at any speed, and none when it takes no time', () => {
  expect(rollLeadSeconds(radiansFromDegrees(45), radiansFromDegrees(30))).toBeCloseTo(0.838, 3);
  expect(rollLeadSeconds(radiansFromDegrees(45), Infinity)).toBe(0);
  // Integrated step by step: what the heading lacks after the roll, over the full rate.
  const bank = radiansFromDegrees(45);
  const rate = radiansFromDegrees(30);
  let turned = 0;
  const step = 1e-4;
  for (let at = step / 2; at < bank / rate; at += step) turned += Math.tan(rate * at) * step;
  expect(rollLeadSeconds(bank, rate)).toBeCloseTo(bank / rate - turned / Math.tan(bank), 4);
});
