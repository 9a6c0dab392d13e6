import { advanceAirPose, airPathEnd, airPathLengthMetres, type AirPath, type AirPoint, type AirPose } from '../paths/air-path.ts';
import { airDirectionFromLetter, airFromLetter, letterFromAir, type LetterFrame } from '../paths/letter-frame.ts';
import type { JoinUp, RepositionLeg } from './plan.ts';
import { repositionBetween } from '../paths/reposition.ts';
import type { ShipModel } from '../paths/ship-model.ts';

/** How far beyond the text's edge the nearest holding circles and the ends of departures lie. */
const ASIDE_METRES = 1500;
/** A ship on its way out keeps to the layer so much farther, past where others wait, before it changes its height. */
const AWAY_METRES = 2000;
const HALF_TURN = Math.PI;
/** Off the way straight out beyond the text: past the circles where others may wait. */
const DEPARTURES_ASIDE_RADIANS = [0, -HALF_TURN / 6, HALF_TURN / 6, -HALF_TURN / 3, HALF_TURN / 3];

/** A place to wait and the way from there to the first stroke; `leg` ends at `firstSmokeSeconds`. */
function joinUpFrom(leave: AirPose, turn: 'left' | 'right', firstStroke: AirPose, model: ShipModel, firstSmokeSeconds: number): JoinUp {
  const way = repositionBetween(leave, firstStroke, model, 0);
  const side = turn === 'left' ? HALF_TURN / 2 : -HALF_TURN / 2;
  const centre = advanceAirPose({ ...leave, directionRadians: leave.directionRadians + side }, model.turningRadiusMetres, 0);
  return {
    holdCentre: { airEastMetres: centre.airEastMetres, airNorthMetres: centre.airNorthMetres },
    holdRadiusMetres: model.turningRadiusMetres,
    holdTurn: turn,
    leg: { kind: 'reposition', path: way.path, startSeconds: firstSmokeSeconds - way.seconds, endSeconds: firstSmokeSeconds },
  };
}

/**
 * Ways to come to a first stroke, shortest first: from circles beyond the text's foot or head, abreast of the stroke
 * or to its sides, left towards the text or along it.
 *
 * @param textHalfDepthMetres half the text's extent from foot to head
 */
export function joinUpChoices(firstStroke: AirPose, firstSmokeSeconds: number, frame: LetterFrame, textHalfDepthMetres: number, model: ShipModel): JoinUp[] {
  const { xMetres } = letterFromAir(firstStroke, frame);
  const choices: JoinUp[] = [];
  for (const side of [-1, 1]) {
    for (const outMetres of [ASIDE_METRES, 2 * ASIDE_METRES, 3 * ASIDE_METRES]) {
      for (const alongMetres of [0, -1500, 1500, -3500, 3500]) {
        const place: AirPoint = airFromLetter({ xMetres: xMetres + alongMetres, yMetres: side * (textHalfDepthMetres + outMetres) }, frame);
        for (const heading of [(-side * HALF_TURN) / 2, 0, HALF_TURN]) {
          const leave = { ...place, directionRadians: airDirectionFromLetter(heading, frame) };
          for (const turn of ['left', 'right'] as const) choices.push(joinUpFrom(leave, turn, firstStroke, model, firstSmokeSeconds));
        }
      }
    }
  }
  return choices.sort((one, other) => airPathLengthMetres(one.leg.path) - airPathLengthMetres(other.leg.path));
}

/** The first piece of a path that a turn to a heading needs, and then straight on. */
function turnAndLeave(from: AirPose, headingRadians: number, lengthMetres: number, model: ShipModel): AirPath[] {
  const radius = model.turningRadiusMetres;
  return [1, -1].map((side) => {
    const turn = (((side * (headingRadians - from.directionRadians)) % (2 * HALF_TURN)) + 2 * HALF_TURN) % (2 * HALF_TURN);
    const segments = [{ lengthMetres: model.runOutSeconds * model.trueAirspeedMetresPerSecond, curvaturePerMetre: 0 }];
    if (turn > 1e-9) segments.push({ lengthMetres: turn * radius, curvaturePerMetre: side / radius });
    segments.push({ lengthMetres, curvaturePerMetre: 0 });
    return { start: from, segments };
  });
}

/**
 * Ways to leave after the last stroke, shortest first: a turn out beyond the text's foot or head, and straight on
 * until clear of it.
 */
export function departureChoices(lastStroke: AirPath, endSeconds: number, frame: LetterFrame, textHalfDepthMetres: number, model: ShipModel): RepositionLeg[] {
  const from = airPathEnd(lastStroke);
  const { yMetres } = letterFromAir(from, frame);
  const paths = [-1, 1].flatMap((side) => {
    const outMetres = Math.max(0, textHalfDepthMetres + ASIDE_METRES + AWAY_METRES - side * yMetres);
    return DEPARTURES_ASIDE_RADIANS.flatMap((aside) =>
      turnAndLeave(from, airDirectionFromLetter((side * HALF_TURN) / 2 + aside, frame), outMetres / Math.cos(aside), model),
    );
  });
  return paths
    .sort((one, other) => airPathLengthMetres(one) - airPathLengthMetres(other))
    .map((path) => ({
      kind: 'reposition',
      path,
      startSeconds: endSeconds,
      endSeconds: endSeconds + airPathLengthMetres(path) / model.trueAirspeedMetresPerSecond,
    }));
}
