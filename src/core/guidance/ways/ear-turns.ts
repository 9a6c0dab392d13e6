import type { AirPose } from '../../paths/air-path.ts';
import type { DubinsPath } from '../../paths/dubins.ts';
import { relativeTo } from '../../paths/project-on-path.ts';
import { turnRadiusMetres } from '../../paths/turn.ts';
import { positiveRadians, signedRadians } from '../../units/angle.ts';

/** A change of heading that is told as a heading is flown with this much bank at most; common practice, no source. */
export const STEERED_BANK_RADIANS = (20 * Math.PI) / 180;
/** A turn of less is told as a heading. */
export const STEERED_RADIANS = (15 * Math.PI) / 180;
/** A turn that ends farther off the line than this is no way onto it. */
const MOST_ASIDE_METRES = 60;

/** One turn onto the line, begun at once with a bank that can be said, and what is left of the line as its run-in. */
export interface EarTurn extends DubinsPath {
  readonly bankRadians: number;
  readonly runInMetres: number;
  /** How far off the line it ends, which the run-in must take off; 0 where another bank from some moment on leads there. */
  readonly asideMetres: number;
}

export interface EarTurnLimits {
  readonly speedMetresPerSecond: number;
  readonly banksRadians: readonly number[];
  readonly turnShare: number;
}

/**
 * The ways of one turn that can be said: with one bank and what it misses the line by, or with one bank first and another from the
 * moment on that brings it onto the line. Told late or early, such a turn is put right by two words, "left medium", and the heading to
 * roll out on stays; broken up into two turns with a moment of straight flight it takes longer to say than to fly.
 *
 * Worked, 53.66 m/s with 45 and 30 degrees, radii 294 and 509 m: 330 m left of the line, square to it and towards it: left, 36 m off; or steep for
 * 56 degrees and then medium, onto it.
 */
export function earTurns(from: AirPose, start: AirPose, { speedMetresPerSecond, banksRadians, turnShare }: EarTurnLimits): EarTurn[] {
  const { aheadMetres, rightMetres } = relativeTo(start, from);
  const off = signedRadians(from.directionRadians - start.directionRadians);
  const radiusOf = (bankRadians: number): number => turnRadiusMetres(speedMetresPerSecond, bankRadians) / turnShare;
  const turns: EarTurn[] = [];
  for (const sign of [1, -1] as const) {
    const wholeRadians = positiveRadians(-sign * off);
    const add = (bankRadians: number, firstRadians: number, firstRadius: number, lastRadius: number, asideMetres: number): void => {
      const via = off + sign * firstRadians;
      const runInMetres = -aheadMetres - sign * firstRadius * (Math.sin(via) - Math.sin(off)) + sign * lastRadius * Math.sin(via);
      const segments = [
        { lengthMetres: firstRadians * firstRadius, curvaturePerMetre: sign / firstRadius },
        { lengthMetres: (wholeRadians - firstRadians) * lastRadius, curvaturePerMetre: sign / lastRadius },
      ].filter(({ lengthMetres }) => lengthMetres > 0);
      const lengthMetres = segments.reduce((sum, segment) => sum + segment.lengthMetres, 0);
      turns.push({ word: sign > 0 ? 'LSL' : 'RSR', path: { start: from, segments }, lengthMetres, bankRadians, runInMetres, asideMetres });
    };
    for (const bankRadians of banksRadians) {
      const radius = radiusOf(bankRadians);
      const asideMetres = Math.abs(-rightMetres - sign * radius * (1 - Math.cos(off)));
      if (asideMetres <= MOST_ASIDE_METRES) add(bankRadians, wholeRadians, radius, radius, asideMetres);
      for (const other of banksRadians) {
        if (other === bankRadians) continue;
        const last = radiusOf(other);
        const cosine = (-sign * rightMetres + radius * Math.cos(off) - last) / (radius - last);
        if (!(Math.abs(cosine) <= 1)) continue;
        for (const via of [Math.acos(cosine), -Math.acos(cosine)]) {
          const firstRadians = positiveRadians(sign * (via - off));
          if (firstRadians < wholeRadians) add(bankRadians, firstRadians, radius, last, 0);
        }
      }
    }
  }
  return turns;
}
