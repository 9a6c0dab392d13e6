import { advanceAirPose } from '../paths/air-path.ts';
import { legsOfOrder } from './assemble.ts';
import { circleKeptClearMetres } from './circle-kept-clear.ts';
import type { DrawnLetter } from '../letters/drawn-letter.ts';
import type { FleetOrder } from '../order/fleet-search.ts';
import { departureChoices, joinUpChoices } from './join-up.ts';
import { avoidsPlace, type Clearance, pairClearance, type PairClearance, samplingSlackMetres, staysClear } from './keep-clear.ts';
import type { LetterFrame } from '../paths/letter-frame.ts';
import type { JoinUp, Leg, RepositionLeg } from './plan.ts';
import { arriveMetres } from '../paths/reposition.ts';
import { type ShipMotion, shipMotion } from './ship-motion.ts';
import type { StrokeGraph } from '../order/stroke-graph.ts';

/** What one ship of a formation flies, with its times. */
export interface ArrangedShip {
  readonly legs: readonly Leg[];
  readonly joinUp: JoinUp;
  readonly departure: RepositionLeg;
}

export interface Arrangement {
  /** In order of their first smoke; the first starts at 0. */
  readonly ships: readonly ArrangedShip[];
  readonly durationSeconds: number;
}

const STEP_SECONDS = 0.5;
/** How many ways to delay the ships are tried for one division of the strokes before the next, and at one finish. */
const DELAYS_TRIED = 12;
const DELAYS_AT_ONE_FINISH = 2;
/** Delays of a ship tried for one finish, and delays looked at before giving one finish up. */
const DELAYS_OF_SHIP = 24;
const DELAYS_LOOKED_AT = 4000;
const JOIN_UPS_TRIED = 180;

function shifted<Moved extends Leg>(leg: Moved, bySeconds: number): Moved {
  return { ...leg, startSeconds: leg.startSeconds + bySeconds, endSeconds: leg.endSeconds + bySeconds };
}

/** A ship's legs from 0 on with the run-in before them, which nobody may cross either. */
function withRunIn(legs: readonly Leg[], graph: StrokeGraph): Leg[] {
  const first = legs[0]!;
  const lengthMetres = arriveMetres(graph.model);
  const seconds = lengthMetres / graph.model.trueAirspeedMetresPerSecond;
  const start = advanceAirPose(first.path.start, -lengthMetres, 0);
  const path = { start, segments: [{ lengthMetres, curvaturePerMetre: 0 }] };
  return [{ kind: 'reposition', path, startSeconds: first.startSeconds - seconds, endSeconds: first.startSeconds }, ...legs];
}

/** Delays, in whole seconds, that keep all pairs apart and end by `finishSeconds`, one ship starting at 0; a few of them. */
function delaysWithin(costs: readonly number[], pairs: readonly (readonly PairClearance[])[], finishSeconds: number, most: number): number[][] {
  const found: number[][] = [];
  let lookedAt = 0;
  const choose = (delays: number[]): void => {
    const ship = delays.length;
    if (found.length >= most) return;
    if (ship === costs.length) {
      if (Math.min(...delays) === 0) found.push([...delays]);
      return;
    }
    const slackSeconds = finishSeconds - costs[ship]!;
    const stepSeconds = Math.max(1, Math.ceil(slackSeconds / DELAYS_OF_SHIP));
    for (let delay = 0; delay <= slackSeconds; delay += stepSeconds) {
      lookedAt += 1;
      if (lookedAt > DELAYS_LOOKED_AT) return;
      if (delays.every((earlier, other) => pairs[other]![ship]!.allows(delay - earlier))) choose([...delays, delay]);
      if (found.length >= most) return;
    }
  };
  choose([]);
  return found;
}

interface Placed {
  readonly motions: ShipMotion[];
  readonly holds: { readonly joinUp: JoinUp; readonly ship: number }[];
}

/** Finds join-ups and departures that keep clear of everything else, one ship after another; null when one finds none. */
function joinAndPart(
  legsOfShips: readonly (readonly Leg[])[],
  graph: StrokeGraph,
  frame: LetterFrame,
  textHalfDepthMetres: number,
  limitMetres: number,
  slipSeconds: number,
): ArrangedShip[] | null {
  const { model } = graph;
  const cores = legsOfShips.map((legs) => shipMotion(withRunIn(legs, graph), STEP_SECONDS));
  const placed: Placed = { motions: [], holds: [] };
  const others = (ship: number): ShipMotion[] => [...cores.filter((_, other) => other !== ship), ...placed.motions];
  const clearOfHolds = (motion: ShipMotion, ship: number): boolean =>
    placed.holds.every((hold) => hold.ship === ship || avoidsPlace(motion, hold.joinUp.holdCentre, circleKeptClearMetres(hold.joinUp, limitMetres)));

  const joinUps: JoinUp[] = [];
  for (const [ship, legs] of legsOfShips.entries()) {
    const choice = joinUpChoices(legs[0]!.path.start, legs[0]!.startSeconds, frame, textHalfDepthMetres, model)
      .slice(0, JOIN_UPS_TRIED)
      .find((joinUp) => {
        const around = circleKeptClearMetres(joinUp, limitMetres);
        if (
          placed.holds.some(
            (hold) =>
              Math.hypot(
                hold.joinUp.holdCentre.airEastMetres - joinUp.holdCentre.airEastMetres,
                hold.joinUp.holdCentre.airNorthMetres - joinUp.holdCentre.airNorthMetres,
              ) <
              around + circleKeptClearMetres(hold.joinUp, 0),
          )
        )
          return false;
        // A ship may come back to its circle at any time: nobody ever passes it.
        if (!others(ship).every((motion) => avoidsPlace(motion, joinUp.holdCentre, around))) return false;
        const motion = shipMotion([joinUp.leg], STEP_SECONDS);
        return others(ship).every((other) => staysClear(motion, other, limitMetres, slipSeconds)) && clearOfHolds(motion, ship);
      });
    if (choice === undefined) return null;
    joinUps.push(choice);
    placed.holds.push({ joinUp: choice, ship });
    placed.motions.push(shipMotion([choice.leg], STEP_SECONDS));
  }

  const ships: ArrangedShip[] = [];
  for (const [ship, legs] of legsOfShips.entries()) {
    const last = legs.at(-1)!;
    const ownJoinUp = placed.motions[ship]!;
    const departure = departureChoices(last.path, last.endSeconds, frame, textHalfDepthMetres, model).find((leg) => {
      const motion = shipMotion([leg], STEP_SECONDS);
      return others(ship).every((other) => other === ownJoinUp || staysClear(motion, other, limitMetres, slipSeconds)) && clearOfHolds(motion, ship);
    });
    if (departure === undefined) return null;
    ships.push({ legs, joinUp: joinUps[ship]!, departure });
    placed.motions.push(shipMotion([departure], STEP_SECONDS));
  }
  return ships;
}

/**
 * Times the ships of a division so that they stay apart at all times, however they slip, and gives each a circle to
 * wait on, a way from there to its first stroke and a way out after its last. Ships wait before they begin, not in
 * between: a delay at the start ends no later than the same delay on the way. Null when that would take longer than
 * `withinSeconds`.
 */
export function arrangeFormation(
  order: FleetOrder,
  graph: StrokeGraph,
  letters: readonly DrawnLetter[],
  frame: LetterFrame,
  textHalfDepthMetres: number,
  clearance: Clearance,
  withinSeconds: number,
): Arrangement | null {
  const flown = order.nodes.filter((nodes) => nodes.length > 0).map((nodes) => legsOfOrder(graph, letters, nodes, 0));
  const costs = flown.map((legs) => legs.at(-1)!.endSeconds);
  const limitMetres = clearance.separationMetres + samplingSlackMetres(STEP_SECONDS, graph.model.trueAirspeedMetresPerSecond);
  const motions = flown.map((legs) => shipMotion(withRunIn(legs, graph), STEP_SECONDS));
  const pairs = motions.map((first, one) =>
    motions.map((second, other) =>
      other > one ? pairClearance(first, second, limitMetres, clearance.slipSeconds) : { allows: () => true, clearBetween: () => true },
    ),
  );
  let tried = 0;
  for (let finishSeconds = Math.max(...costs); finishSeconds < withinSeconds && tried < DELAYS_TRIED; finishSeconds += 3) {
    for (const delays of delaysWithin(costs, pairs, finishSeconds, DELAYS_AT_ONE_FINISH)) {
      tried += 1;
      const timed = flown
        .map((legs, ship) => legs.map((leg) => shifted(leg, delays[ship]!)))
        .sort((one, other) => one[0]!.startSeconds - other[0]!.startSeconds);
      const ships = joinAndPart(timed, graph, frame, textHalfDepthMetres, limitMetres, clearance.slipSeconds);
      if (ships !== null) return { ships, durationSeconds: Math.max(...timed.map((legs) => legs.at(-1)!.endSeconds)) };
    }
  }
  return null;
}
