import type { PathSink } from '../../core/letters/letter-drawing.ts';
import type { PicturePoint } from './picture-view.ts';

/** A sink that turns what is drawn into points about a step apart. */
export interface PolylineSink extends PathSink {
  /** The points so far, in order; a second `moveTo` continues the same list. */
  points(): readonly PicturePoint[];
}

/** Collects points no more than `stepPixels` apart along lines and arcs; ends are kept exactly. */
export function createPolylineSink(stepPixels: number): PolylineSink {
  const points: PicturePoint[] = [];
  const pieces = (lengthPixels: number): number => Math.max(1, Math.ceil(lengthPixels / stepPixels));
  return {
    moveTo: (x, y) => void points.push({ xPixels: x, upPixels: y }),
    lineTo(x, y) {
      const from = points.at(-1) ?? { xPixels: x, upPixels: y };
      const count = pieces(Math.hypot(x - from.xPixels, y - from.upPixels));
      for (let piece = 1; piece <= count; piece++) {
        const share = piece / count;
        points.push({ xPixels: from.xPixels + (x - from.xPixels) * share, upPixels: from.upPixels + (y - from.upPixels) * share });
      }
    },
    arcTo(arc) {
      const count = pieces(Math.abs(arc.sweepRadians) * arc.radius);
      for (let piece = 1; piece < count; piece++) {
        const radians = arc.startRadians + (arc.sweepRadians * piece) / count;
        points.push({ xPixels: arc.centreX + arc.radius * Math.cos(radians), upPixels: arc.centreY + arc.radius * Math.sin(radians) });
      }
      points.push({ xPixels: arc.endX, upPixels: arc.endY });
    },
    points: () => points,
  };
}
