import { type BeltEnd, type BeltSketch, beltPassages, beltStroke, type Passage, type Pulley } from './belt.ts';
import type { GlyphStroke } from './glyph.ts';

/** A belt counts as reaching a pulley's top or bottom when it passes within this of it. */
const REACH_RADIANS = 0.2;

/**
 * The same drawing on a letter deeper than it is high on paper, which a crowd that looks up at a slant sees in its
 * proportions again. Points move with the stretch; pulleys stay circles, since ships fly circles, and none gets
 * tighter: one whose top or bottom is drawn keeps its radius and moves with that edge, one drawn over both (a bowl)
 * grows with the stretch, any other moves with its middle. Null when the pulleys no longer fit.
 *
 * A U of height 1 whose bottom turns at 0.35 becomes, at 1.4, a U of depth 1.4 whose bottom turns at 0.35.
 *
 * @param depthStretch depth over height, at least 1; throws RangeError otherwise
 */
export function stretchedBelt(sketch: BeltSketch, depthStretch: number): BeltSketch | null {
  if (!(depthStretch >= 1 && Number.isFinite(depthStretch))) throw new RangeError(`depthStretch ${depthStretch}`);
  const passages = beltPassages(sketch);
  if (passages === null) return null;
  const pulleys = passages.map((passage) => stretchedPulley(passage, depthStretch));
  return {
    pulleys,
    begins: movedEnd(sketch.begins, sketch.pulleys[0], pulleys[0]),
    ends: movedEnd(sketch.ends, sketch.pulleys.at(-1), pulleys.at(-1)),
  };
}

/** The stroke of a belt on a letter so deep; null when its pulleys do not fit. */
export function stretchedStroke(sketch: BeltSketch, depthStretch: number): GlyphStroke | null {
  const stretched = depthStretch === 1 ? sketch : stretchedBelt(sketch, depthStretch);
  return stretched === null ? null : beltStroke(stretched);
}

function stretchedPulley(passage: Passage, depthStretch: number): Pulley {
  const { xHeights, yHeights, signedRadiusHeights } = passage.pulley;
  const radiusHeights = Math.abs(signedRadiusHeights);
  const top = reaches(passage, Math.PI / 2);
  const bottom = reaches(passage, -Math.PI / 2);
  if (top && bottom) {
    // A bowl that opens to one side gives half of its growth to the other, or its ends would leave their stem.
    const side = Number(reaches(passage, 0)) - Number(reaches(passage, Math.PI));
    return {
      xHeights: xHeights + (side * radiusHeights * (depthStretch - 1)) / 2,
      yHeights: yHeights * depthStretch,
      signedRadiusHeights: signedRadiusHeights * depthStretch,
    };
  }
  const anchorHeights = top ? radiusHeights : bottom ? -radiusHeights : 0;
  return { xHeights, yHeights: (yHeights + anchorHeights) * depthStretch - anchorHeights, signedRadiusHeights };
}

/** Whether the belt lies on the pulley's rim in a direction from its centre. */
function reaches({ pulley, inRadians, sweepRadians }: Passage, rimRadians: number): boolean {
  const sense = Math.sign(pulley.signedRadiusHeights);
  if (sense === 0) return false;
  const startRadians = inRadians - (sense * Math.PI) / 2;
  const turn = 2 * Math.PI;
  const ahead = ((((rimRadians - startRadians) * sense) % turn) + turn) % turn;
  return ahead <= sweepRadians + REACH_RADIANS || ahead >= turn - REACH_RADIANS;
}

/** An end that faces a point keeps its place on the rim. */
function movedEnd(end: BeltEnd, before: Pulley | undefined, after: Pulley | undefined): BeltEnd {
  if (end.kind !== 'facing' || before === undefined || after === undefined) return end;
  return {
    kind: 'facing',
    xHeights: end.xHeights - before.xHeights + after.xHeights,
    yHeights: end.yHeights - before.yHeights + after.yHeights,
  };
}
