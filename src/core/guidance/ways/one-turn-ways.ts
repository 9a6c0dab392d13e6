import type { AirPose } from '../../paths/air-path.ts';
import type { DubinsPath } from '../../paths/dubins.ts';
import { relativeTo } from '../../paths/project-on-path.ts';
import { bankForRadiusRadians } from '../../paths/turn.ts';
import { positiveRadians } from '../../units/angle.ts';

/** A way straight on and then by one turn onto the line of a stroke, with what is left of that line as its run-in. */
export interface OneTurnWay extends DubinsPath {
  readonly bankRadians: number;
  readonly runInMetres: number;
}

export interface OneTurnLimits {
  readonly speedMetresPerSecond: number;
  /** Run-ins that a turn after a line may lead to. */
  readonly runInsMetres: readonly number[];
  /** The bank that leads there lies between these, and the run-in after a turn begun at once. */
  readonly banksRadians: readonly [least: number, most: number];
  readonly runInMetres: readonly [least: number, most: number];
  /** Turn rate flown over the one that a bank gives. */
  readonly turnShare: number;
}

/** Less of a turn than this is a heading, and more a circle; and too little tells no radius. */
const LEAST_TURN_RADIANS = (8 * Math.PI) / 180;

/**
 * The ways of one turn, to either side: at once onto the line, or after as long a line as leaves a given run-in, with the bank that leads
 * there. They keep a heading that is held and a turn that is flown, where a way of given bank and run-in corrects both at each fix.
 *
 * Worked: 400 m left of the line, square to it and towards it: a left turn of 400 m radius at once. Beside a line 600 m aside that was
 * flown the other way: half a circle of 300 m, when it ends at the run-in.
 */
export function oneTurnWays(from: AirPose, start: AirPose, limits: OneTurnLimits): OneTurnWay[] {
  const { aheadMetres, rightMetres } = relativeTo(start, from);
  const off = from.directionRadians - start.directionRadians;
  // How far off the line a turn begins, for each metre of radius.
  const aside = 1 - Math.cos(off);
  const ways: OneTurnWay[] = [];
  for (const sign of [1, -1]) {
    const turnRadians = positiveRadians(-sign * off);
    if (Math.abs(turnRadians - Math.PI) > Math.PI - LEAST_TURN_RADIANS) continue;
    // How far along the line it then ends, less where it began.
    const along = -sign * Math.sin(off);
    const besideMetres = -sign * rightMetres;
    const add = (lineMetres: number, radiusMetres: number): void => {
      if (lineMetres < 0 || radiusMetres <= 0) return;
      const runInMetres = -aheadMetres - lineMetres * Math.cos(off) - radiusMetres * along;
      const bankRadians = bankForRadiusRadians(limits.speedMetresPerSecond, radiusMetres * limits.turnShare);
      if (!isWithin(bankRadians, limits.banksRadians) || !isWithin(runInMetres, limits.runInMetres)) return;
      const line = { lengthMetres: lineMetres, curvaturePerMetre: 0 };
      const turn = { lengthMetres: radiusMetres * turnRadians, curvaturePerMetre: sign / radiusMetres };
      const path = { start: from, segments: lineMetres > 0 ? [line, turn] : [turn] };
      ways.push({ word: sign > 0 ? 'LSL' : 'RSR', path, lengthMetres: lineMetres + turn.lengthMetres, bankRadians, runInMetres });
    };
    add(0, besideMetres / aside);
    for (const runInMetres of limits.runInsMetres) {
      const toGoMetres = runInMetres + aheadMetres;
      add(toGoMetres + (along * besideMetres) / aside, -(besideMetres * Math.cos(off) + along * toGoMetres) / aside);
    }
  }
  return ways;
}

const isWithin = (value: number, [least, most]: readonly [number, number]): boolean => value >= least - 1e-6 && value <= most + 1e-6;
