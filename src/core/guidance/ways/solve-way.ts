import { type AirPath, type AirPoint, type AirPose, advanceAirPose, airPoseAt } from '../../paths/air-path.ts';
import { distanceToPointsMetres } from './path-points.ts';
import { dubinsCandidates, type DubinsPath } from '../../paths/dubins.ts';
import type { DubinsWord } from '../../paths/dubins-word.ts';
import { changeOfMindSeconds } from './change-of-mind.ts';
import { earTurns } from './ear-turns.ts';
import { type OneTurnLimits, oneTurnWays } from './one-turn-ways.ts';
import { signedRadians } from '../../units/angle.ts';
import { bankForRadiusRadians, turnRadiusMetres } from '../../paths/turn.ts';

/** A turn-limited way from here to a stroke's start, wings level before it. */
export interface Way {
  readonly path: AirPath;
  readonly word: DubinsWord;
  readonly bankRadians: number;
  readonly runInSeconds: number;
  /** To the stroke's start, run-in included. */
  readonly seconds: number;
  /** How it begins: 1 to the left, -1 to the right, 0 on a heading. */
  readonly firstSign: -1 | 0 | 1;
}

export interface WayLimits {
  readonly trueAirspeedMetresPerSecond: number;
  readonly turningBankRadians: number;
  readonly maximumBankRadians: number;
  readonly runInSeconds: number;
  /** Turn rate flown over the one that a bank gives; 1 where it is left out. */
  readonly turnShare?: number;
  /** Only banks that can be said, and run-ins that let the roll-out that was told stand. */
  readonly byEar?: boolean;
  /** What an ear was told last: to be told another heading costs it more than the time that is saved. */
  readonly told?: { readonly sense: 'left' | 'right' | 'either'; readonly directionRadians: number } | null;
  /** The stroke is not to be begun sooner; 0 when any time will do. */
  readonly earliestSeconds: number;
  /** Sooner than this nothing was proven, and the way would be lost at its end; absent where any time before that is only early. */
  readonly provenFromSeconds?: number;
  /** Arriving later than this costs more than the time; absent where lateness costs no more than itself. */
  readonly dueSeconds?: number;
  /** Points along the way that was planned and proven, to be kept to; absent where any way will do. */
  readonly near?: readonly AirPoint[];
  /**
   * What the pilot was asked to do last and what it would cost to ask otherwise; left out by flights of older logs, whose ways
   * change for a saving of 4 s and cost nothing to change within one word.
   */
  readonly mind?: { readonly turnJustBegun: boolean };
}

/**
 * What a departure from the plain way costs, as seconds of way it must save: so that steeper turns and shorter
 * run-ins are kept for when they avoid another circle, and the cue does not flit between ways of equal length.
 */
const STEEPER_COST_SECONDS_PER_RADIAN = 40;
const SHALLOWER_COST_SECONDS_PER_RADIAN = 4;
const SHORT_RUN_IN_COST = 1.5;
/** A run-in shortened where the turn begins is missing where it ends: of 370 ways at the desk 27 then took another circle, at this price 1. */
const SHORT_RUN_IN_KEPT_COST = 3;
/** A turn that ends beside the line: the run-in must take it off. */
const ASIDE_COST_SECONDS_PER_METRE = 0.08;
const CHANGE_COST_SECONDS = 4;
/** A way kept near a planned one does not flit, and must be free to keep its time. */
const KEPT_CHANGE_COST_SECONDS = 1;
const EARLY_COST_PER_SECOND = 3;
const UNPROVEN_COST_PER_SECOND = 60;
const LATE_COST_PER_SECOND = 10;
/** A ship with time to spare lengthens its run-in by up to this much; with more it flies a circle first. */
const LONGEST_EXTRA_RUN_IN_SECONDS = 16;

/** Far more than sums of prices are off by, in whatever order, and far less than tells two ways apart. */
const ROUNDING_SECONDS = 1e-6;

/** A turn rolled into and out of, beyond its length. */
const TURN_COST_SECONDS = 1.5;
const NOTICED_TURN_RADIANS = (4 * Math.PI) / 180;
/** Wings level for less than this between two turns the same way is one turn badly flown. */
const SHORT_STRAIGHT_SECONDS = 3;
const SHORT_STRAIGHT_COST = 1.5;
/** What is said between two turns, a roll-out and the next turn, takes so long. */
const EAR_SHORT_STRAIGHT_SECONDS = 6;
/** What an ear is told as shallow, medium and steep; the shallowest is too wide for most ways. */
const EAR_BANKS_RADIANS = [30, 45].map((degrees) => (degrees * Math.PI) / 180);
/** Run-ins tried for an ear, over the wanted one: finely, so that a turn can end where it was told to. */
const EAR_RUN_IN_SHARES = Array.from({ length: 20 }, (_, index) => 1.35 - 0.05 * index);
const BANK_STEP_RADIANS = (2.5 * Math.PI) / 180;
/** A run-in may be so much shorter, and of a way of one turn so much longer, than the wanted one. */
const SHORTEST_RUN_IN_SHARE = 0.4;
const LONGEST_RUN_IN_SHARE = 2.5;
const LEAST_ONE_TURN_BANK_RADIANS = (20 * Math.PI) / 180;

/**
 * The best way from a pose to a stroke's start: Dubins paths (Dubins 1957) over several banks around the turning
 * bank and several lengths of run-in, each priced in seconds. Total: from any pose there is a way.
 *
 * @param previous the way cued last, which keeps its turns unless another saves more than 4 s; null at first
 */
export function solveWay(from: AirPose, start: AirPose, limits: WayLimits, previous: Way | null): Way {
  const speed = limits.trueAirspeedMetresPerSecond;
  let best: Way | null = null;
  let bestCost = Infinity;
  const weigh = (candidate: DubinsPath, bankRadians: number, runInSeconds: number, extraSeconds = 0): void => {
    const seconds = candidate.lengthMetres / speed + runInSeconds;
    const turnsPrice = turnsPriceSeconds(candidate, speed, limits.byEar === true ? EAR_SHORT_STRAIGHT_SECONDS : SHORT_STRAIGHT_SECONDS);
    const price = priceSeconds(seconds, bankRadians, runInSeconds, limits);
    // What is asked of the pilot costs the most to work out, and nothing that is added is below zero.
    if (seconds + turnsPrice + price + extraSeconds > bestCost + ROUNDING_SECONDS) return;
    const firstSign = firstSignOf(candidate);
    const change =
      previous === null
        ? 0
        : limits.mind === undefined
          ? wordChangeSeconds(candidate.word, previous, limits.near)
          : changeOfMindSeconds({ path: candidate.path, bankRadians, runInSeconds, firstSign }, previous, limits.mind.turnJustBegun);
    const again = limits.told == null ? 0 : toldAgainSeconds(candidate, limits.told, speed);
    const cost = seconds + turnsPrice + price + change + again + extraSeconds;
    if (cost >= bestCost) return;
    const kept = cost + (limits.near === undefined ? 0 : strayingCostSeconds(candidate.path, candidate.lengthMetres, limits.near));
    if (kept >= bestCost) return;
    bestCost = kept;
    const segments = [...candidate.path.segments, { lengthMetres: runInSeconds * speed, curvaturePerMetre: 0 }];
    best = { path: { start: from, segments }, word: candidate.word, bankRadians, runInSeconds, seconds, firstSign };
  };
  if (limits.byEar === true && limits.mind !== undefined && limits.earliestSeconds === 0) {
    const { turnShare = 1 } = limits;
    for (const one of earTurns(from, start, { speedMetresPerSecond: speed, banksRadians: banksToTry(limits), turnShare })) {
      const runInSeconds = one.runInMetres / speed;
      const share = runInSeconds / limits.runInSeconds;
      if (share < SHORTEST_RUN_IN_SHARE || share > LONGEST_RUN_IN_SHARE) continue;
      weigh(one, one.bankRadians, runInSeconds, one.asideMetres * ASIDE_COST_SECONDS_PER_METRE);
    }
  }
  const runInsSeconds = runInsToTry(limits);
  for (const bankRadians of banksToTry(limits)) {
    const radius = turnRadiusMetres(speed, bankRadians) / (limits.turnShare ?? 1);
    for (const runInSeconds of runInsSeconds) {
      // A way that costs more by its length, bank and run-in alone is not laid out.
      const mostSeconds = bestCost + ROUNDING_SECONDS - runInSeconds - bankAndRunInSeconds(bankRadians, runInSeconds, limits);
      const to = advanceAirPose(start, -runInSeconds * speed, 0);
      for (const candidate of dubinsCandidates(from, to, radius, mostSeconds * speed)) weigh(candidate, bankRadians, runInSeconds);
    }
  }
  if (keepsTurns(limits)) {
    for (const one of oneTurnWays(from, start, oneTurnLimits(limits, runInsSeconds))) weigh(one, one.bankRadians, one.runInMetres / speed);
  }
  if (best === null) throw new RangeError(`solveWay: no way at ${speed} m/s`);
  return afterCircles(afterLine(best, start, limits), limits);
}

/** Lines flown on before the turn, by a ship that would come before what was proven: past its line and back, where a circle would lose far too much. */
const LINES_ON_SECONDS = [1, 2, 3, 4.5, 6];
const ENOUGH_LOST_SECONDS = 5;

function afterLine(way: Way, start: AirPose, { provenFromSeconds = 0, ...limits }: WayLimits): Way {
  const { path } = way;
  for (const seconds of way.seconds < provenFromSeconds ? LINES_ON_SECONDS : []) {
    const lengthMetres = seconds * limits.trueAirspeedMetresPerSecond;
    const after = solveWay(advanceAirPose(path.start, lengthMetres, 0), start, { ...limits, earliestSeconds: 0 }, way);
    const lateSeconds = seconds + after.seconds - provenFromSeconds;
    if (lateSeconds < 0 || lateSeconds > ENOUGH_LOST_SECONDS) continue;
    const segments = [{ lengthMetres, curvaturePerMetre: 0 }, ...after.path.segments];
    return { ...after, path: { ...path, segments }, seconds: seconds + after.seconds, firstSign: 0 };
  }
  return way;
}

/** Farther than this from the planned way costs a little, and from the second on so much that any other way is better. */
const STRAYING_METRES = 150;
const STRAYING_COST_PER_METRE = 0.04;
const FAR_STRAYING_METRES = 220;
const FAR_STRAYING_COST_PER_METRE = 0.5;
const STRAYING_LOOKS = 6;

function strayingCostSeconds(path: AirPath, lengthMetres: number, near: readonly AirPoint[]): number {
  let worst = 0;
  for (let look = 1; look <= STRAYING_LOOKS; look += 1) {
    worst = Math.max(worst, distanceToPointsMetres(airPoseAt(path, (lengthMetres * look) / (STRAYING_LOOKS + 1)), near));
  }
  return Math.max(0, worst - STRAYING_METRES) * STRAYING_COST_PER_METRE + Math.max(0, worst - FAR_STRAYING_METRES) * FAR_STRAYING_COST_PER_METRE;
}

/** A way that would end too soon, after as many whole circles as fill the time, in the sense of its first turn. */
function afterCircles(way: Way, { earliestSeconds, trueAirspeedMetresPerSecond: speed, turningBankRadians }: WayLimits): Way {
  const tightest = turnRadiusMetres(speed, turningBankRadians);
  const rounds = Math.floor(((earliestSeconds - way.seconds) * speed) / (2 * Math.PI * tightest));
  if (rounds < 1) return way;
  const wayMetres = (earliestSeconds - way.seconds) * speed;
  const sign = way.word[0] === 'R' ? -1 : 1;
  const circles = { lengthMetres: wayMetres, curvaturePerMetre: (sign * 2 * Math.PI * rounds) / wayMetres };
  return {
    ...way,
    path: { start: way.path.start, segments: [circles, ...way.path.segments] },
    bankRadians: Math.min(turningBankRadians, bankForRadiusRadians(speed, wayMetres / (2 * Math.PI * rounds))),
    seconds: earliestSeconds,
  };
}

/** Who is led by eye: an ear is told banks and headings that can be said. A formation is held near its proven ways by what straying costs. */
const keepsTurns = ({ mind, byEar, near }: WayLimits): boolean => (mind !== undefined || near !== undefined) && byEar !== true;

function oneTurnLimits(limits: WayLimits, runInsSeconds: readonly number[]): OneTurnLimits {
  const { trueAirspeedMetresPerSecond: speedMetresPerSecond, maximumBankRadians, runInSeconds, turnShare = 1 } = limits;
  const wantedMetres = runInSeconds * speedMetresPerSecond;
  return {
    speedMetresPerSecond,
    turnShare,
    runInsMetres: runInsSeconds.map((seconds) => seconds * speedMetresPerSecond),
    banksRadians: [LEAST_ONE_TURN_BANK_RADIANS, maximumBankRadians],
    runInMetres: [SHORTEST_RUN_IN_SHARE * wantedMetres, LONGEST_RUN_IN_SHARE * wantedMetres],
  };
}

function turnsPriceSeconds({ word, path: { segments } }: DubinsPath, speed: number, shortSeconds: number): number {
  const turns = segments.filter(({ lengthMetres, curvaturePerMetre }) => Math.abs(lengthMetres * curvaturePerMetre) > NOTICED_TURN_RADIANS);
  if (turns.length < 2 || word[0] !== word[2]) return turns.length * TURN_COST_SECONDS;
  const straightSeconds = (segments.find(({ curvaturePerMetre }) => curvaturePerMetre === 0)?.lengthMetres ?? 0) / speed;
  return turns.length * TURN_COST_SECONDS + Math.max(0, shortSeconds - straightSeconds) * SHORT_STRAIGHT_COST;
}

function priceSeconds(seconds: number, bankRadians: number, runInSeconds: number, limits: WayLimits): number {
  const earlyCost =
    Math.max(0, limits.earliestSeconds - seconds) * EARLY_COST_PER_SECOND + Math.max(0, (limits.provenFromSeconds ?? 0) - seconds) * UNPROVEN_COST_PER_SECOND;
  const lateCost = Math.max(0, seconds - (limits.dueSeconds ?? Infinity)) * LATE_COST_PER_SECOND;
  return bankAndRunInSeconds(bankRadians, runInSeconds, limits) + earlyCost + lateCost;
}

function bankAndRunInSeconds(bankRadians: number, runInSeconds: number, limits: WayLimits): number {
  const steeper = bankRadians - limits.turningBankRadians;
  const bankCost = steeper > 0 ? steeper * STEEPER_COST_SECONDS_PER_RADIAN : -steeper * SHALLOWER_COST_SECONDS_PER_RADIAN;
  const shortCost = limits.mind === undefined ? SHORT_RUN_IN_COST : SHORT_RUN_IN_KEPT_COST;
  return bankCost + Math.max(0, limits.runInSeconds - runInSeconds) * shortCost;
}

function wordChangeSeconds(word: DubinsWord, previous: Way, near: WayLimits['near']): number {
  if (previous.word === word) return 0;
  return near === undefined ? CHANGE_COST_SECONDS : KEPT_CHANGE_COST_SECONDS;
}

/** How a way begins, as it is cued: a small turn is a heading. */
function firstSignOf({ path: { segments } }: DubinsPath): Way['firstSign'] {
  const [first] = segments;
  const turned = first === undefined ? 0 : first.lengthMetres * first.curvaturePerMetre;
  return Math.abs(turned) > NOTICED_TURN_RADIANS ? (turned > 0 ? 1 : -1) : 0;
}

/** Another roll-out to be told: so much a degree beyond the first few, up to what it takes to say and do it. */
const TOLD_NEAR_RADIANS = (2 * Math.PI) / 180;
const TOLD_COST_SECONDS_PER_RADIAN = 10;
const TOLD_MOST_SECONDS = 5;

/** Not to turn now as was told, the other way round or later: it is said and done already. */
const OTHERWISE_SECONDS = 6;
const LATER_COST_PER_SECOND = 2;
/** A way that begins with less of a turn than this begins on a heading. */
const HEADING_TURN_RADIANS = (15 * Math.PI) / 180;

/** What it costs an ear to be told otherwise: nothing while the way begins as it was told. */
function toldAgainSeconds({ path }: DubinsPath, told: NonNullable<WayLimits['told']>, speed: number): number {
  const [first, second, third] = path.segments;
  const turned = (segment: typeof first): number => (segment === undefined ? 0 : segment.lengthMetres * segment.curvaturePerMetre);
  const endDirection = path.start.directionRadians + turned(first);
  const headingCost = (directionRadians: number): number =>
    Math.min(
      TOLD_MOST_SECONDS,
      TOLD_COST_SECONDS_PER_RADIAN * Math.max(0, Math.abs(signedRadians(directionRadians - told.directionRadians)) - TOLD_NEAR_RADIANS),
    );
  if (told.sense === 'either') return Math.abs(turned(first)) < HEADING_TURN_RADIANS ? headingCost(endDirection) : 0;
  const sign = told.sense === 'left' ? 1 : -1;
  if (sign * turned(first) > 0) return headingCost(endDirection);
  if (Math.abs(turned(first)) > HEADING_TURN_RADIANS || sign * turned(third) <= 0) return OTHERWISE_SECONDS;
  const laterSeconds = ((first?.lengthMetres ?? 0) + (second?.lengthMetres ?? 0)) / speed;
  return Math.min(OTHERWISE_SECONDS, LATER_COST_PER_SECOND * laterSeconds + headingCost(endDirection + turned(third)));
}

function banksToTry({ turningBankRadians, maximumBankRadians, earliestSeconds, byEar }: WayLimits): number[] {
  if (byEar === true) return EAR_BANKS_RADIANS.filter((bank) => bank <= turningBankRadians + 1e-9);
  const banks = [6, 4, 2, 1, 0].map((steps) => turningBankRadians - steps * BANK_STEP_RADIANS);
  for (let bank = turningBankRadians + BANK_STEP_RADIANS; bank <= maximumBankRadians + 1e-9; bank += BANK_STEP_RADIANS) banks.push(bank);
  if (earliestSeconds > 0) banks.push(turningBankRadians / 2);
  return banks.filter((bank) => bank >= 2 * BANK_STEP_RADIANS);
}

function runInsToTry({ runInSeconds, earliestSeconds, byEar }: WayLimits): number[] {
  if (byEar === true && earliestSeconds === 0) return EAR_RUN_IN_SHARES.map((share) => share * runInSeconds);
  const tried = runInSeconds === 0 ? [0] : [runInSeconds, runInSeconds * 0.7, runInSeconds * SHORTEST_RUN_IN_SHARE];
  if (earliestSeconds > 0) for (let extra = 2; extra <= LONGEST_EXTRA_RUN_IN_SECONDS; extra += 2) tried.push(runInSeconds + extra);
  return tried;
}
