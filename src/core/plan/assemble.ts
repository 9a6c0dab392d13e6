import type { DrawnLetter } from '../letters/drawn-letter.ts';
import type { Leg, ShipPlan, SmokeLeg } from './plan.ts';
import { repositionBetween } from '../paths/reposition.ts';
import { curvedEndsBetween, type StrokeGraph } from '../order/stroke-graph.ts';
import { airPathEnd, airPathLengthMetres } from '../paths/air-path.ts';

function smokeLeg(graph: StrokeGraph, letters: readonly DrawnLetter[], node: number, strokeIndex: number, startSeconds: number): SmokeLeg {
  const { letter, alternative, stroke, reversed, startMetres, path } = graph.nodes[node]!;
  const { letterIndex, character, alternatives } = graph.letters[letter]!;
  return {
    kind: 'smoke',
    strokeIndex,
    letterIndex,
    character,
    style: letters[letter]!.alternatives[alternatives[alternative]!.alternativeIndex]!.style,
    sources: [{ drawnStrokeIndex: stroke, reversed, startMetres }],
    path,
    startSeconds,
    endSeconds: startSeconds + graph.smokeSeconds[node]!,
  };
}

/** The legs of an order, from `startSeconds` on; touching strokes of one letter that continue each other become one leg. */
export function legsOfOrder(graph: StrokeGraph, letters: readonly DrawnLetter[], nodes: readonly number[], startSeconds: number): Leg[] {
  const legs: Leg[] = [];
  let strokeIndex = 0;
  let atSeconds = startSeconds;
  nodes.forEach((node, index) => {
    const last = legs.at(-1);
    const before = nodes[index - 1];
    if (before !== undefined && last?.kind === 'smoke') {
      const way = repositionBetween(airPathEnd(graph.nodes[before]!.path), graph.nodes[node]!.path.start, graph.model, curvedEndsBetween(graph, before, node));
      if (way.kind !== 'none') {
        legs.push({ kind: 'reposition', path: way.path, startSeconds: atSeconds, endSeconds: atSeconds + way.seconds });
        atSeconds += way.seconds;
      } else if (graph.nodes[before]!.letter === graph.nodes[node]!.letter) {
        const next = smokeLeg(graph, letters, node, strokeIndex, atSeconds);
        legs[legs.length - 1] = {
          ...last,
          sources: [...last.sources, ...next.sources],
          path: { start: last.path.start, segments: [...last.path.segments, ...next.path.segments] },
          endSeconds: next.endSeconds,
        };
        atSeconds = next.endSeconds;
        return;
      }
    }
    const leg = smokeLeg(graph, letters, node, strokeIndex, atSeconds);
    legs.push(leg);
    strokeIndex += 1;
    atSeconds = leg.endSeconds;
  });
  return legs;
}

/** A ship's plan from its legs: distance, smoke, oil, and how often the valve is opened. */
export function shipPlan(shipIndex: number, legs: readonly Leg[], oilKilogramsPerSecond: number, heightStepMetres = 0): ShipPlan {
  const smokeLegs = legs.filter((leg) => leg.kind === 'smoke');
  const smokeSeconds = smokeLegs.reduce((sum, leg) => sum + leg.endSeconds - leg.startSeconds, 0);
  return {
    shipIndex,
    legs,
    smokeSeconds,
    distanceMetres: legs.reduce((sum, leg) => sum + airPathLengthMetres(leg.path), 0),
    toggles: legs.filter((leg, index) => leg.kind === 'smoke' && legs[index - 1]?.kind !== 'smoke').length,
    oilKilograms: smokeSeconds * oilKilogramsPerSecond,
    heightStepMetres,
  };
}
