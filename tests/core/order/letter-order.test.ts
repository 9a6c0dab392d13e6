import { describe, expect, test } from 'vitest';
import type { DrawnLetter } from '../../../src/core/letters/drawn-letter.ts';
import { MOST_ORDERED_STROKES, orderLetterByLetter } from '../../../src/core/order/letter-order.ts';
import { shipModel } from '../../../src/core/paths/ship-model.ts';
import { repositionSeconds, type StrokeGraph, strokeGraph } from '../../../src/core/order/stroke-graph.ts';
import { drawnText, optionsFor } from './drawn-text.ts';

function graphOf(letters: readonly DrawnLetter[]): StrokeGraph {
  const { frame, ...limits } = optionsFor('');
  const all = (letter: DrawnLetter): number[] => letter.alternatives.map((_, index) => index);
  return strokeGraph(letters, all, frame, shipModel(limits), { closedStarts: 3, fixedDirections: false });
}

/** The least time of letter after letter, every order, direction and alternative tried one by one. */
function leastByTrying(graph: StrokeGraph, sequence: readonly number[]): number {
  let least = Infinity;
  const write = (place: number, left: readonly number[], last: number, soFar: number): void => {
    if (soFar >= least) return;
    if (left.length > 0) {
      for (const stroke of left) {
        const { letter, alternative } = graph.nodes[stroke]!;
        graph.nodes.forEach((node, index) => {
          if (node.letter !== letter || node.alternative !== alternative || node.stroke !== graph.nodes[stroke]!.stroke) return;
          const way = last < 0 ? 0 : repositionSeconds(graph, last, index);
          write(
            place,
            left.filter((other) => other !== stroke),
            index,
            soFar + way + graph.smokeSeconds[index]!,
          );
        });
      }
      return;
    }
    if (place === sequence.length) {
      least = soFar;
      return;
    }
    for (const { firstNode, endNode } of graph.letters[sequence[place]!]!.alternatives) {
      const firstOfStrokes = new Map<number, number>();
      for (let node = firstNode; node < endNode; node += 1) {
        if (!firstOfStrokes.has(graph.nodes[node]!.stroke)) firstOfStrokes.set(graph.nodes[node]!.stroke, node);
      }
      write(place + 1, [...firstOfStrokes.values()], last, soFar);
    }
  };
  write(0, [], -1, 0);
  return least;
}

describe('letter after letter', () => {
  test.each(['E', 'LA', 'OK', 'BOX'])('%s takes the least time there is', (text) => {
    const graph = graphOf(drawnText(text).letters);
    const sequence = [...text].map((_, index) => index);
    for (const order of [sequence, sequence.toReversed()]) {
      const found = orderLetterByLetter(graph, order)!;
      expect(found.exact).toBe(true);
      expect(found.costSeconds).toBeCloseTo(leastByTrying(graph, order), 6);
      const flown = found.nodes.reduce(
        (sum, node, place) => sum + (place > 0 ? repositionSeconds(graph, found.nodes[place - 1]!, node) : 0) + graph.smokeSeconds[node]!,
        0,
      );
      expect(flown).toBeCloseTo(found.costSeconds, 6);
    }
  });

  test('a letter of too many strokes keeps its drawn order, and says so', () => {
    const strokes = Array.from({ length: MOST_ORDERED_STROKES + 3 }, (_, index) => ({
      path: { start: { xMetres: ((index * 7) % 12) * 900, yMetres: 0, directionRadians: index }, segments: [{ lengthMetres: 700, curvaturePerMetre: 0 }] },
      closed: false,
    }));
    const graph = graphOf([{ letterIndex: 0, character: '', alternatives: [{ style: 'drawn', strokes }] }]);
    const found = orderLetterByLetter(graph, [0])!;
    expect(found.exact).toBe(false);
    expect(found.nodes.map((node) => graph.nodes[node]!.stroke)).toEqual(strokes.map((_, index) => index));
  });
});
