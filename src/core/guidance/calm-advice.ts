import { STATE } from '../tracking/estimate.ts';
import type { TurnCommand } from '../tracking/turn-command.ts';
import { signedRadians } from '../units/angle.ts';
import type { Advice, Flight, FlyingState } from './guidance-state.ts';
import { flownCommands, predictedAt } from './present.ts';

const DEGREE = Math.PI / 180;
/** Figures stand for so long before they change again, while the turn stays what it is. */
const FIGURES_STAND_SECONDS = 0.6;
/** A heading to hold that moved by less is left, and one to roll out on, far from it and near. */
const HELD_RADIANS = 1 * DEGREE;
const ROLL_OUT_RADIANS = 3 * DEGREE;
const NEAR_ROLL_OUT_RADIANS = 1.5 * DEGREE;
const NEAR_RADIANS = 35 * DEGREE;
/** A figure moves by so much at a time, unless what is asked for is another thing. */
const STEP_RADIANS = 4.5 * DEGREE;
const OTHER_RADIANS = 20 * DEGREE;
/** How fast a turn goes, about: 45 degrees of bank at 120 mph. */
const TURNING_PER_SECOND = 10 * DEGREE;
const BANK_RADIANS = 2.5 * DEGREE;
/** The roll-out of a long turn goes on by half a circle at a time. */
const HALF_CIRCLE_RADIANS = 150 * DEGREE;
/** A turn cue lives for so long before the opposite one. */
const TURN_LIVES_SECONDS = 3;
const MOMENT_SECONDS = 1;
/** A turn the same way again so soon after its roll-out is a heading. */
const AGAIN_SECONDS = 2;
/** Wings level for less than this between two turns the same way is flown as one turn. */
const JOINED_SECONDS = 2.5;
const STEERED_RADIANS = 25 * DEGREE;

/**
 * What is shown of new advice, beside what was shown before: figures stand still unless what they say moved, and move by
 * small steps; a turn is not taken back for its opposite before the hand has answered. The advice's time and smoke are
 * never touched.
 */
export function calmAdvice(state: FlyingState, advice: Advice): Advice {
  const { flight } = state;
  const last = flight.commands.at(-1);
  if (last === undefined || last.blank === true) return advice;
  const onWay = state.phase === 'repositioning' && !state.onRunIn;
  const command = calmCommand(flight, last, onWay ? joined(flownCommands(flight).at(-1) ?? last, advice, flight.formation !== null) : advice.command, {
    onWay,
    underSmoke: state.phase === 'onStroke',
  });
  return command === advice.command ? advice : { ...advice, command };
}

/**
 * A line of a moment before a turn the same way is no reason to roll out: the turn goes on. Before a turn the other way, where a formation's
 * time is kept, the line is left out: once shown it would stand for a second, and the turn would come late at its steepest.
 */
function joined(last: TurnCommand, { command, next }: Advice, inTime: boolean): TurnCommand {
  if (command.sense !== 'either' || last.sense === 'either' || next === null || next.command.sense === 'either') return command;
  const goesOn = next.command.sense === last.sense;
  if (next.inSeconds >= (goesOn ? JOINED_SECONDS : inTime ? MOMENT_SECONDS : 0)) return command;
  return { ...next.command, fromSeconds: command.fromSeconds, bankRadians: last.bankRadians };
}

function calmCommand(flight: Flight, last: TurnCommand, command: TurnCommand, where: { readonly onWay: boolean; readonly underSmoke: boolean }): TurnCommand {
  const direction = predictedAt(flight, flight.atSeconds)?.mean[STATE.direction];
  if (direction === undefined) return command;
  if (command.sense === last.sense) return calmFigures(flight, last, command, direction);
  const beganSeconds = sinceSeconds(flight.commands, last);
  const lived = flight.atSeconds - beganSeconds;
  // What was asked for a moment ago is not taken back; where the smoke is on or near, a moment is a letter's edge.
  if (where.onWay && lived < MOMENT_SECONDS) return last;
  if (command.sense === 'either') return command;
  if (last.sense === 'either') {
    const before = flight.commands.findLast(({ sense }) => sense !== last.sense);
    // Two facts of one moment may ask twice: a turn that was taken back is not asked the other way at once either. A letter's arcs are.
    const opposite = before !== undefined && before.sense !== command.sense && !where.underSmoke;
    if (opposite && flight.atSeconds - sinceSeconds(flight.commands, before) < TURN_LIVES_SECONDS) {
      return calmFigures(flight, last, { ...command, sense: 'either', bankRadians: 0 }, direction);
    }
    const toGo = Math.abs(signedRadians(command.directionRadians - direction));
    const again = before?.sense === command.sense && lived < AGAIN_SECONDS && toGo < STEERED_RADIANS;
    return again ? calmFigures(flight, last, { ...command, sense: 'either', bankRadians: 0 }, direction) : command;
  }
  if (lived >= TURN_LIVES_SECONDS) return command;
  // Taken back: the nose stays where it is until the opposite turn is sure.
  const steered = Math.abs(signedRadians(command.directionRadians - direction)) < STEERED_RADIANS;
  return { ...command, sense: 'either', bankRadians: 0, directionRadians: steered ? command.directionRadians : direction };
}

/** When the sense of a command was first asked for, in the run that it belongs to. */
function sinceSeconds(commands: Flight['commands'], of: TurnCommand): number {
  const at = commands.lastIndexOf(of);
  const before = commands.findLastIndex((one, index) => index < at && one.sense !== of.sense);
  return commands[before + 1]!.fromSeconds;
}

function calmFigures(flight: Flight, last: TurnCommand, command: TurnCommand, direction: number): TurnCommand {
  const moved = signedRadians(command.directionRadians - last.directionRadians);
  const size = Math.abs(moved);
  const stands = flight.atSeconds - last.fromSeconds < FIGURES_STAND_SECONDS;
  const turning = command.sense !== 'either';
  const near = Math.abs(signedRadians(last.directionRadians - direction)) < NEAR_RADIANS;
  const left = turning ? (near ? NEAR_ROLL_OUT_RADIANS : ROLL_OUT_RADIANS) : HELD_RADIANS;
  // An ear is told seldom, and then the heading itself: a step on the way there is none that it could fly.
  if (flight.byEar) return size <= left ? { ...command, directionRadians: last.directionRadians } : command;
  const bankMoved = Math.abs(command.bankRadians - last.bankRadians) > BANK_RADIANS && !stands;
  const bankRadians = bankMoved ? command.bankRadians : last.bankRadians;
  if (turning && size > HALF_CIRCLE_RADIANS && !stands) return { ...command, directionRadians: signedRadians(last.directionRadians + Math.PI), bankRadians };
  const toGo = Math.abs(signedRadians(command.directionRadians - direction));
  if (turning && size > OTHER_RADIANS && !stands && toGo / TURNING_PER_SECOND < (size / STEP_RADIANS) * FIGURES_STAND_SECONDS) {
    // A turn that was to go on and is now nearly done is rolled out of.
    return toGo < STEERED_RADIANS ? { ...command, sense: 'either', bankRadians: 0 } : { ...command, bankRadians };
  }
  const stays = size <= left || stands;
  const step = stays ? 0 : Math.sign(moved) * Math.min(size, STEP_RADIANS);
  return { ...command, directionRadians: signedRadians(last.directionRadians + step), bankRadians };
}
