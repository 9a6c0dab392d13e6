import type { AirPath } from '../../paths/air-path.ts';

/** What a way asks of the pilot, as far as a change of it is noticed. */
export interface AskedWay {
  readonly path: AirPath;
  readonly bankRadians: number;
  readonly runInSeconds: number;
  /** How it begins: 1 to the left, -1 to the right, 0 on a heading. */
  readonly firstSign: -1 | 0 | 1;
}

/** The other way round is what unsettles most, and most while the roll into the turn is hardly done. */
const OPPOSITE_COST_SECONDS = 8;
const OPPOSITE_JUST_BEGUN_COST_SECONDS = 20;
const OTHER_TURNS_COST_SECONDS = 4;
/**
 * Another bank or run-in moves the heading to roll out on: half a second for the steps between them. Dearer than this, a way is held until
 * it no longer exists and a circle must be flown instead: of 25 flights at the desk half of all turns were then taken back. At 0.2 s ways alternate.
 */
const OTHER_BANK_COST_SECONDS_PER_RADIAN = 12;
const OTHER_RUN_IN_COST = 0.4;
const NOTICED_TURN_RADIANS = (4 * Math.PI) / 180;

/**
 * What it costs the pilot to be asked for something else than a moment ago, as seconds that it must save: the turn the other
 * way round, other turns, another bank, another run-in. Ways of nearly equal length so do not alternate.
 */
export function changeOfMindSeconds(next: AskedWay, previous: AskedWay, turnJustBegun: boolean): number {
  const opposite = next.firstSign * previous.firstSign < 0;
  // A turn that is done is missing from the beginning of what was asked for, and is no change.
  const same = sensesOf(previous.path).endsWith(sensesOf(next.path));
  return (
    (opposite ? (turnJustBegun ? OPPOSITE_JUST_BEGUN_COST_SECONDS : OPPOSITE_COST_SECONDS) : 0) +
    (same ? 0 : OTHER_TURNS_COST_SECONDS) +
    OTHER_BANK_COST_SECONDS_PER_RADIAN * Math.abs(next.bankRadians - previous.bankRadians) +
    OTHER_RUN_IN_COST * Math.abs(next.runInSeconds - previous.runInSeconds)
  );
}

/** The turns that are noticed, those the same way after each other as one: `LR` is one to the left and then one to the right. */
function sensesOf({ segments }: AirPath): string {
  let senses = '';
  for (const { lengthMetres, curvaturePerMetre } of segments) {
    const sense = curvaturePerMetre > 0 ? 'L' : 'R';
    if (Math.abs(lengthMetres * curvaturePerMetre) > NOTICED_TURN_RADIANS && !senses.endsWith(sense)) senses += sense;
  }
  return senses;
}
