import { relativeTo } from '../../paths/project-on-path.ts';
import type { AirPose } from '../../paths/air-path.ts';
import { asked, type TurnCommand } from '../../tracking/turn-command.ts';
import { signedRadians } from '../../units/angle.ts';
import { STANDARD_GRAVITY } from '../../units/quantity.ts';
import type { Advice, Flight } from '../guidance-state.ts';
import { airPoseOf, predictedAt } from '../present.ts';
import { STEERED_BANK_RADIANS, STEERED_RADIANS } from '../ways/ear-turns.ts';

const DEGREE = Math.PI / 180;
/** "Straight zero eight seven" is begun when it has been wanted for a moment, and lasts. */
const SAID_SECONDS = 1.8;
/** Off the line, and off its direction, by so much at the start counts as one; an order costs so much, and the next can follow so soon. */
const OFF_METRES = 20;
const OFF_RADIANS = 7 * DEGREE;
const ORDER_COST = 0.5;
const BETWEEN_ORDERS_SECONDS = 2.4;
/** Nearly as far off as the gate refuses: a pass again costs most. */
const REFUSED_METRES = 40;
const REFUSED_RADIANS = 9 * DEGREE;
const REFUSED_COST = 4;
/** Headings that may be told, from the line's own: less of a change than the least is not worth a word. */
const MOST_RADIANS = 20 * DEGREE;
const LEAST_CHANGE_RADIANS = 4 * DEGREE;
const STEP_RADIANS = 2 * DEGREE;

/** Where a ship will be against the line: metres to its start, metres right of it, radians left of its direction. */
interface Spot {
  readonly toGoMetres: number;
  readonly rightMetres: number;
  readonly offRadians: number;
}

/** A plan for what is left of a run-in: what is told now, or nothing, and when the line's own direction is told. */
interface Plan {
  readonly cost: number;
  readonly nowRadians: number | null;
  readonly lineInSeconds: number | null;
}

/**
 * What to tell a pilot who only listens on the run-in: nothing while what was told leads through the stroke's start, else the one
 * heading, or the two, that do. Corrections that follow the line as for an eye take three seconds to be said and done, and chase it.
 *
 * @returns null before anything was told
 */
export function earRunIn(flight: Flight, start: AirPose, speed: number): Pick<Advice, 'command' | 'next'> | null {
  const told = flight.told.at(-1);
  if (told === undefined) return null;
  const { hands, atSeconds } = flight;
  const effectSeconds = Math.max(SAID_SECONDS, told.fromSeconds - atSeconds) + hands.turnReactionSeconds;
  const pose = airPoseOf(predictedAt(flight, atSeconds + effectSeconds)!, flight);
  const { aheadMetres, rightMetres } = relativeTo(start, pose);
  const spot: Spot = { toGoMetres: -aheadMetres, rightMetres, offRadians: signedRadians(pose.directionRadians - start.directionRadians) };
  const toldOff = signedRadians(told.directionRadians - start.directionRadians);
  const rateOf = (bankRadians: number): number => (hands.turnShare * STANDARD_GRAVITY * Math.tan(bankRadians)) / speed;
  const steered = { speed, rate: rateOf(STEERED_BANK_RADIANS) };
  const turn = { speed, rate: rateOf(flight.setup.turningBankRadians) };
  const held = turned(spot, toldOff, told.sense === 'either' ? steered : { speed, rate: rateOf(told.bankRadians) });
  let best: Plan = { cost: missCost(held), nowRadians: null, lineInSeconds: null };
  const weigh = (plan: Plan): void => {
    if (plan.cost < best.cost) best = plan;
  };
  const line = (from: Spot, atLeastSeconds: number, nowRadians: number | null, orders: number): void => {
    const turning = Math.abs(from.offRadians) < STEERED_RADIANS ? steered : turn;
    const lineInSeconds = lineUpSeconds(from, turning);
    if (lineInSeconds === null || lineInSeconds < atLeastSeconds) return;
    const end = turned({ ...from, ...straight(from, lineInSeconds * speed) }, 0, turning);
    weigh({ cost: missCost(end) + orders * ORDER_COST, nowRadians, lineInSeconds });
  };
  line(held, 0, null, 1);
  for (let off = -MOST_RADIANS; off <= MOST_RADIANS + 1e-9; off += STEP_RADIANS) {
    if (Math.abs(signedRadians(off - toldOff)) < LEAST_CHANGE_RADIANS) continue;
    const after = turned(spot, off, Math.abs(signedRadians(off - toldOff)) < STEERED_RADIANS ? steered : turn);
    weigh({ cost: missCost(after) + ORDER_COST, nowRadians: off, lineInSeconds: null });
    line(after, BETWEEN_ORDERS_SECONDS, off, 2);
  }
  const heading = (offRadians: number, fromRadians: number): TurnCommand => {
    const change = signedRadians(offRadians - fromRadians);
    const isTurn = Math.abs(change) >= STEERED_RADIANS;
    return asked(
      atSeconds,
      isTurn ? (change > 0 ? 'left' : 'right') : 'either',
      signedRadians(start.directionRadians + offRadians),
      isTurn ? flight.setup.turningBankRadians : 0,
    );
  };
  if (best.nowRadians !== null) return { command: heading(best.nowRadians, toldOff), next: null };
  return {
    command: { ...told, fromSeconds: atSeconds, startsManoeuvre: false },
    next: best.lineInSeconds === null ? null : { command: heading(0, toldOff), inSeconds: effectSeconds - hands.turnReactionSeconds + best.lineInSeconds },
  };
}

function missCost({ toGoMetres, rightMetres, offRadians }: Spot): number {
  // A turn that is not done when the smoke is due, as if it went on straight from where it ends.
  const late = Math.max(0, -toGoMetres) / OFF_METRES / 2;
  const missMetres = Math.abs(rightMetres - Math.max(0, toGoMetres) * Math.tan(offRadians));
  const refused = (missMetres > REFUSED_METRES ? 1 : 0) + (Math.abs(offRadians) > REFUSED_RADIANS ? 1 : 0);
  return (missMetres / OFF_METRES) ** 2 + (offRadians / OFF_RADIANS) ** 2 + late ** 2 + REFUSED_COST * refused;
}

interface Turning {
  readonly speed: number;
  readonly rate: number;
}

/** After a change of heading at a rate. */
function turned({ toGoMetres, rightMetres, offRadians }: Spot, toRadians: number, { speed, rate }: Turning): Spot {
  const change = signedRadians(toRadians - offRadians);
  const radius = (Math.sign(change) * speed) / rate;
  return {
    toGoMetres: toGoMetres - radius * (Math.sin(toRadians) - Math.sin(offRadians)),
    rightMetres: rightMetres + radius * (Math.cos(toRadians) - Math.cos(offRadians)),
    offRadians: toRadians,
  };
}

function straight({ toGoMetres, rightMetres, offRadians }: Spot, metres: number): Pick<Spot, 'toGoMetres' | 'rightMetres'> {
  return { toGoMetres: toGoMetres - metres * Math.cos(offRadians), rightMetres: rightMetres - metres * Math.sin(offRadians) };
}

/** When the line's own direction must begin to be flown so that the turn ends on the line; null where the ship does not close on it. */
function lineUpSeconds(from: Spot, steered: Turning): number | null {
  const sine = Math.sin(from.offRadians);
  if (Math.abs(sine) < 0.02) return null;
  const endMetres = turned(from, 0, steered).rightMetres;
  const seconds = endMetres / sine / steered.speed;
  return seconds < 0 ? null : seconds;
}
