import { positiveRadians } from '../units/angle.ts';
import type { GlyphSegment, GlyphStroke } from './glyph.ts';

/**
 * The pen that draws the alphabet. A stroke is a belt: it leaves a point, is laid round pulleys, each passed turning
 * left or right, and ends at a point. Between pulleys it runs straight along their common tangent, so whatever is
 * written with it is a tangent-continuous row of lines and arcs, and each pulley's radius is the radius flown.
 *
 *     from(0, 1).left(0.35, 0.35, 0.35).to(0.7, 1)        a U: down, round to the left, up
 *     at(0.8, 0.8).left(0.4, 0.5, 0.4).until(0.8, 0.2)    a C: it starts and ends on its pulley, facing these points
 *     loop().left(0.4, 0.6, 0.4).left(0.4, 0.4, 0.4).close()    an O
 *
 * All coordinates and radii are in letter heights, x along reading, y up.
 */
export interface BeltSketch {
  readonly pulleys: readonly Pulley[];
  /** How the belt ends: at its first and last pulley (points are pulleys without radius), on them, or in itself. */
  readonly begins: BeltEnd;
  readonly ends: BeltEnd;
}

/** A circle the belt is laid round; the radius is positive when passed turning left, 0 for a point. */
export interface Pulley {
  readonly xHeights: number;
  readonly yHeights: number;
  readonly signedRadiusHeights: number;
}

/** `point`: the pulley itself; `facing`: where the pulley's rim faces a point; `loop`: the belt is closed. */
export type BeltEnd =
  | { readonly kind: 'point' }
  | { readonly kind: 'loop' }
  | { readonly kind: 'facing'; readonly xHeights: number; readonly yHeights: number };

/** A belt being laid: passes further pulleys, then ends in one of three ways. */
export interface Belt {
  /** Passes the circle turning left (anticlockwise). */
  left(xHeights: number, yHeights: number, radiusHeights: number): Belt;
  /** Passes the circle turning right (clockwise). */
  right(xHeights: number, yHeights: number, radiusHeights: number): Belt;
  /** Runs straight to its end. */
  to(xHeights: number, yHeights: number): BeltSketch;
  /** Ends on the last circle, where its rim faces the point. */
  until(xHeights: number, yHeights: number): BeltSketch;
  /** Runs round to where it began. */
  close(): BeltSketch;
}

/** Begins a belt at a point. */
export function from(xHeights: number, yHeights: number): Belt {
  return layBelt([{ xHeights, yHeights, signedRadiusHeights: 0 }], { kind: 'point' });
}

/** Begins a belt on its first circle, where that circle's rim faces the point. */
export function at(xHeights: number, yHeights: number): Belt {
  return layBelt([], { kind: 'facing', xHeights, yHeights });
}

/** Begins a closed belt. */
export function loop(): Belt {
  return layBelt([], { kind: 'loop' });
}

function layBelt(pulleys: readonly Pulley[], begins: BeltEnd): Belt {
  const pass = (xHeights: number, yHeights: number, signedRadiusHeights: number): Belt =>
    layBelt([...pulleys, { xHeights, yHeights, signedRadiusHeights }], begins);
  return {
    left: (xHeights, yHeights, radiusHeights) => pass(xHeights, yHeights, radiusHeights),
    right: (xHeights, yHeights, radiusHeights) => pass(xHeights, yHeights, -radiusHeights),
    to: (xHeights, yHeights) => ({
      pulleys: [...pulleys, { xHeights, yHeights, signedRadiusHeights: 0 }],
      begins,
      ends: { kind: 'point' },
    }),
    until: (xHeights, yHeights) => ({ pulleys, begins, ends: { kind: 'facing', xHeights, yHeights } }),
    close: () => ({ pulleys, begins, ends: { kind: 'loop' } }),
  };
}

/** The same belt farther right, and higher. */
export function movedBelt(sketch: BeltSketch, xHeights: number, yHeights = 0): BeltSketch {
  const moved = <P extends { readonly xHeights: number; readonly yHeights: number }>(point: P): P => ({
    ...point,
    xHeights: point.xHeights + xHeights,
    yHeights: point.yHeights + yHeights,
  });
  return {
    pulleys: sketch.pulleys.map(moved),
    begins: sketch.begins.kind === 'facing' ? moved(sketch.begins) : sketch.begins,
    ends: sketch.ends.kind === 'facing' ? moved(sketch.ends) : sketch.ends,
  };
}

/** How a belt passes one of its pulleys, and how far it then runs straight. */
export interface Passage {
  readonly pulley: Pulley;
  readonly inRadians: number;
  /** Turned on the pulley, in its own sense, in [0, 2 pi]. */
  readonly sweepRadians: number;
  readonly straightHeights: number;
}

/** Lines and arcs shorter than this are left out; it is a ten-thousandth of a millimetre on a letter of 1,200 m. */
const NOTHING_HEIGHTS = 1e-10;
/** A sweep this close to a whole turn is no sweep at all: arrival and departure differ only by rounding. */
const WHOLE_TURN_SLACK_RADIANS = 1e-9;

/**
 * The belt pulley by pulley, or null when its pulleys overlap so that no common tangent exists (rounding that does
 * not fit the letter). A pulley is swept by less than a whole turn, but for a loop's only one: that is a circle.
 *
 * The tangent from circle 1 to circle 2 with signed radii p1, p2 satisfies D = L d + (p2 - p1) n, where D joins the
 * centres, d is the direction and n its left normal, which gives both at once (plane geometry, any textbook).
 */
export function beltPassages({ pulleys, begins, ends }: BeltSketch): Passage[] | null {
  const closed = begins.kind === 'loop';
  if (closed !== (ends.kind === 'loop')) throw new RangeError(`a belt begun as ${begins.kind} cannot end as ${ends.kind}`);
  const [only] = pulleys;
  if (closed && only !== undefined && pulleys.length === 1) {
    return [{ pulley: only, inRadians: 0, sweepRadians: 2 * Math.PI, straightHeights: 0 }];
  }
  const tangents = closed ? pulleys.length : pulleys.length - 1;
  const runs: { directionRadians: number; lengthHeights: number }[] = [];
  for (let index = 0; index < tangents; index++) {
    const run = tangentBetween(pulleyAt(pulleys, index), pulleyAt(pulleys, (index + 1) % pulleys.length));
    if (run === null) return null;
    runs.push(run);
  }
  return pulleys.map((pulley, index) => {
    const arrival = index > 0 ? runs[index - 1] : closed ? runs[runs.length - 1] : undefined;
    const departure = runs[index];
    const inRadians = arrival?.directionRadians ?? endDirection(pulley, begins) ?? departure?.directionRadians;
    const outRadians = departure?.directionRadians ?? endDirection(pulley, ends) ?? arrival?.directionRadians;
    if (inRadians === undefined || outRadians === undefined) throw new RangeError('a belt needs two pulleys or two ends');
    const sweepRadians = positiveRadians((outRadians - inRadians) * Math.sign(pulley.signedRadiusHeights));
    return {
      pulley,
      inRadians,
      sweepRadians: sweepRadians > 2 * Math.PI - WHOLE_TURN_SLACK_RADIANS ? 0 : sweepRadians,
      straightHeights: departure?.lengthHeights ?? 0,
    };
  });
}

/**
 * The stroke a belt makes; null as for {@link beltPassages}.
 *
 * `beltStroke(from(0, 1).to(0, 0))` is one line of length 1 with direction 3 pi / 2.
 */
export function beltStroke(sketch: BeltSketch): GlyphStroke | null {
  const passages = beltPassages(sketch);
  if (passages === null) return null;
  const [first] = passages;
  if (first === undefined) throw new RangeError('a belt without pulleys');
  const segments: GlyphSegment[] = [];
  for (const { pulley, sweepRadians, straightHeights } of passages) {
    const radius = pulley.signedRadiusHeights;
    const arcHeights = sweepRadians * Math.abs(radius);
    if (arcHeights > NOTHING_HEIGHTS) segments.push({ lengthHeights: arcHeights, curvaturePerHeight: 1 / radius });
    if (straightHeights > NOTHING_HEIGHTS) segments.push({ lengthHeights: straightHeights, curvaturePerHeight: 0 });
  }
  return {
    start: { ...rimPoint(first.pulley, first.inRadians), directionRadians: positiveRadians(first.inRadians) },
    segments,
    closed: sketch.begins.kind === 'loop',
  };
}

function tangentBetween(first: Pulley, second: Pulley): { directionRadians: number; lengthHeights: number } | null {
  const x = second.xHeights - first.xHeights;
  const y = second.yHeights - first.yHeights;
  const across = second.signedRadiusHeights - first.signedRadiusHeights;
  const alongSquared = x * x + y * y - across * across;
  if (alongSquared < -NOTHING_HEIGHTS || (x === 0 && y === 0)) return null;
  const lengthHeights = Math.sqrt(Math.max(0, alongSquared));
  return { directionRadians: Math.atan2(y, x) - Math.atan2(across, lengthHeights), lengthHeights };
}

/** The direction of travel where the pulley's rim faces the end's point; undefined for other ends. */
function endDirection(pulley: Pulley, end: BeltEnd): number | undefined {
  if (end.kind !== 'facing') return undefined;
  const facingRadians = Math.atan2(end.yHeights - pulley.yHeights, end.xHeights - pulley.xHeights);
  return facingRadians + (Math.sign(pulley.signedRadiusHeights) * Math.PI) / 2;
}

function rimPoint({ xHeights, yHeights, signedRadiusHeights }: Pulley, directionRadians: number): { xHeights: number; yHeights: number } {
  return {
    xHeights: xHeights + signedRadiusHeights * Math.sin(directionRadians),
    yHeights: yHeights - signedRadiusHeights * Math.cos(directionRadians),
  };
}

function pulleyAt(pulleys: readonly Pulley[], index: number): Pulley {
  const pulley = pulleys[index];
  if (pulley === undefined) throw new RangeError(`no pulley ${index}`);
  return pulley;
}
