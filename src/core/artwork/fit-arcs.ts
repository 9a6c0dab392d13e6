import { biarc, distanceToArc, type FitArc } from './biarc.ts';
import type { OutlineSample, SmoothPart } from './outline-samples.ts';

/** How long the outline between two ends of a fit may be beside the fit, so that no arc takes the long way round. */
const LONGEST_SHARE = 1.5;

/**
 * A smooth part of an outline as a row of arcs and lines without corners, each no farther than `tolerance` from it.
 * From node to node the longest pair of arcs that holds is taken, and among shorter ones one that turns no tighter
 * than `radius`, if the longest does. Where not even neighbouring nodes can be joined within the tolerance, their
 * arcs are taken as they come.
 *
 * Units are the outline's own.
 */
export function fitArcs({ samples }: SmoothPart, tolerance: number, radius: number): FitArc[] {
  const nodes = samples.flatMap((sample, index) => (sample.node ? [index] : []));
  const arcs: FitArc[] = [];
  let at = 0;
  while (at < nodes.length - 1) {
    let stop = at + 1;
    while (stop < nodes.length - 1 && samples[nodes[stop] ?? 0]?.kept !== true) stop += 1;
    const to = farthest(samples, nodes, at, stop, tolerance, radius);
    const pair = biarc(samples[nodes[at] ?? 0] as OutlineSample, samples[nodes[to] ?? 0] as OutlineSample);
    for (const arc of pair ?? []) if (arc.length > 0) arcs.push(arc);
    at = to;
  }
  return arcs;
}

function farthest(samples: readonly OutlineSample[], nodes: readonly number[], at: number, stop: number, tolerance: number, radius: number): number {
  const holds = (to: number): boolean => fitHolds(samples, nodes[at] ?? 0, nodes[to] ?? 0, tolerance);
  let good = at + 1;
  let step = 1;
  while (good < stop && holds(Math.min(stop, good + step))) {
    good = Math.min(stop, good + step);
    step *= 2;
  }
  let bad = Math.min(stop + 1, good + step);
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  for (let span = good - at; span >= 1; span = span === 1 ? 0 : Math.floor(span * 0.75)) {
    const pair = biarc(samples[nodes[at] ?? 0] as OutlineSample, samples[nodes[at + span] ?? 0] as OutlineSample);
    const flyable = pair?.every(({ curvature }) => Math.abs(curvature) * radius <= 1) === true;
    if (flyable && (span === good - at || holds(at + span))) return at + span;
  }
  return good;
}

function fitHolds(samples: readonly OutlineSample[], from: number, to: number, tolerance: number): boolean {
  const pair = biarc(samples[from] as OutlineSample, samples[to] as OutlineSample);
  if (pair === null) return false;
  const [first, second] = pair;
  let length = 0;
  for (let index = from + 1; index <= to; index++) {
    const sample = samples[index] as OutlineSample;
    const before = samples[index - 1] as OutlineSample;
    length += Math.hypot(sample.x - before.x, sample.y - before.y);
    if (Math.min(distanceToArc(sample.x, sample.y, first), distanceToArc(sample.x, sample.y, second)) > tolerance) return false;
  }
  return first.length + second.length <= LONGEST_SHARE * length + tolerance;
}
