import { type Estimate, STATE } from '../tracking/estimate.ts';
import { signedRadians } from '../units/angle.ts';
import { STANDARD_GRAVITY } from '../units/quantity.ts';
import type { Flight } from './guidance-state.ts';
import { commandAt } from '../tracking/turn-command.ts';
import { flownCommands } from './present.ts';
import type { Hands } from './learned-hands.ts';

/** A turn is looked at when its roll is surely done and its end not begun. */
const SETTLED_SECONDS = 3.5;
const LATEST_SECONDS = 9;
const TO_GO_RADIANS = 0.45;
const LEAST_SHARE = 0.6;
/** How much one turn counts against what was believed before. */
const WEIGHT = 0.2;
const LONGEST_REACTION_SECONDS = 2.5;
/** From so long after the cue on even a slow hand's turn is steady; less of it than this tells nothing. */
const STEADY_SECONDS = 4.5;
const LEAST_STEADY_RADIANS = 0.6;
/** How much a turn counts, for each radian of it, and at most. */
const SHARE_WEIGHT_PER_RADIAN = 0.12;
const MOST_SHARE_WEIGHT = 0.3;

/** Before the first turn. */
export function handsAtFirst(reactionSeconds: number): Hands {
  return { turnReactionSeconds: reactionSeconds, turnShare: 1, headingOffRadians: 0, turn: null };
}

/**
 * What a used fix tells of the hands: while a turn goes on steadily, the heading turned so far and the rate of turn say
 * when it would have begun had the bank been there at once. An ordinary ear takes 0.3 to 1.2 s, a gyro and a hand on the
 * stick another bank than was asked for; both are taken off the next turns by being expected. Round a waiting circle another bank
 * is asked for each second: that tells nothing of the reaction, but what half a round turned tells of the bank.
 */
export function handsLearned(flight: Flight, estimate: Estimate): Hands {
  const { hands } = flight;
  const onCircle = flight.formation?.part === 'circling';
  const commands = flownCommands(flight);
  const last = commands.at(-1);
  if (last === undefined || last.sense === 'either' || last.blank === true) return { ...headingLearned(flight, estimate), turn: null };
  const beganIndex = commands.findLastIndex(({ sense }) => sense !== last.sense) + 1;
  const cuedAtSeconds = commands[beganIndex]!.fromSeconds;
  const watched = hands.turn?.sense === last.sense && estimate.atSeconds > hands.turn.cuedAtSeconds ? hands.turn : null;
  if (watched === null) {
    const level = Math.abs(estimate.mean[STATE.turnRate]!) < 0.03;
    const soon = level && estimate.atSeconds >= cuedAtSeconds - 1.5 && estimate.atSeconds <= cuedAtSeconds + 0.5;
    if (!soon && !onCircle) return hands.turn === null ? hands : { ...hands, turn: null };
    return { ...hands, turn: { sense: last.sense, cuedAtSeconds, cuedDirectionRadians: estimate.mean[STATE.direction]!, learned: false, steady: null } };
  }
  const sinceSeconds = estimate.atSeconds - watched.cuedAtSeconds;
  const sign = last.sense === 'left' ? 1 : -1;
  const toGoRadians = sign * signedRadians(last.directionRadians - estimate.mean[STATE.direction]!);
  const ending = onCircle ? (watched.steady?.cuedRadians ?? 0) > Math.PI : toGoRadians > -0.5 && toGoRadians < TO_GO_RADIANS;
  if (ending) return shareLearned(hands, watched);
  const steady = sinceSeconds < STEADY_SECONDS ? null : steadyAfter(watched.steady, flight, estimate, sign);
  return reactionLearned(hands, { ...watched, learned: watched.learned || onCircle, steady }, last.bankRadians, flight, estimate, sign);
}

type Watched = NonNullable<Hands['turn']>;

function reactionLearned(hands: Hands, watched: Watched, bankRadians: number, { setup }: Flight, estimate: Estimate, sign: number): Hands {
  const sinceSeconds = estimate.atSeconds - watched.cuedAtSeconds;
  if (watched.learned || sinceSeconds < SETTLED_SECONDS || sinceSeconds > LATEST_SECONDS) return { ...hands, turn: watched };
  const rate = sign * estimate.mean[STATE.turnRate]!;
  const share = rate / ((STANDARD_GRAVITY * Math.tan(bankRadians)) / estimate.mean[STATE.airspeed]!);
  const turned = sign * signedRadians(estimate.mean[STATE.direction]! - watched.cuedDirectionRadians);
  const turnedRadians = turned < 0 ? turned + 2 * Math.PI : turned;
  if (share < LEAST_SHARE || share > 1.6 || turnedRadians > Math.PI) return { ...hands, turn: watched };
  const reaction = sinceSeconds - turnedRadians / rate - bankRadians / setup.rollRateRadiansPerSecond / 2;
  const believed = Math.min(LONGEST_REACTION_SECONDS, Math.max(0, reaction));
  return {
    ...hands,
    turnReactionSeconds: hands.turnReactionSeconds + WEIGHT * (believed - hands.turnReactionSeconds),
    turn: { ...watched, learned: true },
  };
}

/** One more fix of a steady turn. */
function steadyAfter(before: Watched['steady'], flight: Flight, estimate: Estimate, sign: number): Watched['steady'] {
  const [atSeconds, directionRadians] = [estimate.atSeconds, estimate.mean[STATE.direction]!];
  const cued = commandAt(flownCommands(flight), atSeconds, flight.hands.turnReactionSeconds);
  if (before === null || cued === null || cued.sense === 'either') return { atSeconds, directionRadians, turnedRadians: 0, cuedRadians: 0 };
  const cuedRate = (STANDARD_GRAVITY * Math.tan(cued.bankRadians)) / estimate.mean[STATE.airspeed]!;
  return {
    atSeconds,
    directionRadians,
    turnedRadians: before.turnedRadians + sign * signedRadians(directionRadians - before.directionRadians),
    cuedRadians: before.cuedRadians + cuedRate * (atSeconds - before.atSeconds),
  };
}

/** A turn is over: over its steady part the heading says how much of the cued rate was flown, where the rate of a moment says little. */
function shareLearned(hands: Hands, watched: Watched): Hands {
  const { steady } = watched;
  if (steady === null || steady.cuedRadians < LEAST_STEADY_RADIANS) return { ...hands, turn: watched };
  const share = Math.min(1.3, Math.max(0.75, steady.turnedRadians / steady.cuedRadians));
  const weight = Math.min(MOST_SHARE_WEIGHT, SHARE_WEIGHT_PER_RADIAN * steady.cuedRadians);
  return { ...hands, turnShare: hands.turnShare + weight * (share - hands.turnShare), turn: { ...watched, steady: null } };
}

/** A heading held for so long, and shown within so much, is flown as the pilot's gyro has it. */
const HELD_SECONDS = 4;
const SAME_HEADING_RADIANS = (3 * Math.PI) / 180;
const HEADING_WEIGHT = 0.04;
const MOST_OFF_RADIANS = (5 * Math.PI) / 180;
/** Farther off than this the pilot does not hold what is shown. */
const HELD_WITHIN_RADIANS = (8 * Math.PI) / 180;

/** A little of what the direction flown differs from the one cued, at every fix on a heading. */
function headingLearned(flight: Flight, estimate: Estimate): Hands {
  const { hands } = flight;
  const commands = flownCommands(flight);
  const last = commands.at(-1);
  if (last === undefined || last.blank === true) return hands;
  const since = estimate.atSeconds - hands.turnReactionSeconds - HELD_SECONDS;
  const shown = commands.filter(({ fromSeconds }, index) => fromSeconds > since || (commands[index + 1]?.fromSeconds ?? Infinity) > since);
  const steady =
    shown[0]!.fromSeconds <= since &&
    shown.every(
      ({ sense, directionRadians }) => sense === 'either' && Math.abs(signedRadians(directionRadians - last.directionRadians)) < SAME_HEADING_RADIANS,
    );
  const off = signedRadians(estimate.mean[STATE.direction]! - last.directionRadians);
  if (!steady || Math.abs(off) > HELD_WITHIN_RADIANS) return hands;
  const learned = hands.headingOffRadians + HEADING_WEIGHT * off;
  return { ...hands, headingOffRadians: Math.min(MOST_OFF_RADIANS, Math.max(-MOST_OFF_RADIANS, learned)) };
}
