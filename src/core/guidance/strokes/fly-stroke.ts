import { bankForCurvatureRadians } from '../../paths/turn.ts';
import { airPathLengthMetres, type AirPath, type AirPose } from '../../paths/air-path.ts';
import { curvatureAt, projectOnPath } from '../../paths/project-on-path.ts';
import { STATE } from '../../tracking/estimate.ts';
import { asked, type TurnCommand } from '../../tracking/turn-command.ts';
import { signedRadians } from '../../units/angle.ts';
import { STANDARD_GRAVITY } from '../../units/quantity.ts';
import { interceptDirection } from './follow-line.ts';
import type { Flight, FlyingState } from '../guidance-state.ts';
import { isHeld } from './hold-stroke.ts';
import { nextOnStroke } from './next-on-stroke.ts';
import { afterStroke } from './next-stroke.ts';
import { smokeLeadSeconds } from './smoke-lead.ts';
import { frozenPoseOf, isTrusted, predictedAt } from '../present.ts';
import { rollOutDirection, turnAhead } from '../ways/turn-ahead.ts';

type OnStroke = Extract<FlyingState, { phase: 'onStroke' }>;

const LINE_LOOKAHEAD_SECONDS = 6;
const LINE_INTERCEPT_RADIANS = (8 * Math.PI) / 180;
const ARC_LOOKAHEAD_SECONDS = 3.5;
/** Farther off the line than this share of the letter's height the stroke is broken off and taken up again. */
const BROKEN_PER_LETTER_HEIGHT = 0.12;

/** Follows the stroke with the smoke on, and ends it by where the aircraft is; by time, and early, if fixes stop. */
export function flyStroke(state: OnStroke): FlyingState {
  const { flight, strokeIndex } = state;
  const { setup, atSeconds } = flight;
  if (!isTrusted(flight) && !isHeld(state)) return brokenOff(state, state.alongMetres, 'no fix');
  const { path } = setup.strokes[strokeIndex]!;
  const now = predictedAt(flight, atSeconds)!;
  const speed = now.mean[STATE.airspeed]!;
  const lengthMetres = airPathLengthMetres(path);
  const nowProjection = projectOnPath(path, frozenPoseOf(now, state), state.alongMetres);
  const alongMetres = nowProjection.alongMetres;
  const smokeInSeconds = (lengthMetres - alongMetres) / speed - setup.valveOffSeconds;
  if (smokeInSeconds <= smokeLeadSeconds(flight)) return afterStroke(state, 'flown');
  const limitMetres = BROKEN_PER_LETTER_HEIGHT * setup.letterHeightMetres;
  if (Math.abs(nowProjection.crossTrackMetres) > limitMetres) return brokenOff(state, alongMetres, 'off the line');

  const pose = frozenPoseOf(predictedAt(flight, atSeconds + flight.hands.turnReactionSeconds)!, state);
  const projection = projectOnPath(path, pose, alongMetres + speed * flight.hands.turnReactionSeconds);
  const here = Math.max(0, projection.alongMetres);
  const early = arcBegunEarly(path, here, speed, setup.rollRateRadiansPerSecond);
  const command = commandOnStroke(flight, path, pose, here, early, projection.crossTrackMetres, projection.pose, speed);
  const next = nextOnStroke(path, early ?? here);
  return {
    ...state,
    alongMetres,
    flight: {
      ...flight,
      advice: {
        command,
        smokeInSeconds,
        crossTrackMetres: nowProjection.crossTrackMetres,
        because: `stroke ${strokeIndex + 1}`,
        next:
          next === null
            ? null
            : {
                command: asked(atSeconds, next.sense, next.directionRadians, bankForCurvatureRadians(speed, next.curvaturePerMetre)),
                inSeconds: Math.max(0, (next.untilMetres + (early ?? here) - here) / speed - setup.writingBankRadians / setup.rollRateRadiansPerSecond / 2),
              },
      },
    },
  };
}

function commandOnStroke(
  flight: Flight,
  path: AirPath,
  pose: AirPose,
  here: number,
  early: number | null,
  crossTrackMetres: number,
  pathPose: AirPose,
  speed: number,
): TurnCommand {
  const { setup, atSeconds } = flight;
  const turn = turnAhead(path, early ?? here, early === null ? pathPose.directionRadians : projectOnPath(path, pose, early).pose.directionRadians);
  if (turn === null) {
    return asked(atSeconds, 'either', interceptDirection(pathPose.directionRadians, crossTrackMetres, LINE_LOOKAHEAD_SECONDS * speed, LINE_INTERCEPT_RADIANS));
  }
  const lookahead = ARC_LOOKAHEAD_SECONDS * speed;
  const headingError = signedRadians(pose.directionRadians - pathPose.directionRadians);
  // Right of the path asks for more left turn; a nose already left of it asks for less.
  const correction = early === null ? crossTrackMetres / lookahead ** 2 - (1.5 * headingError) / lookahead : 0;
  const sign = Math.sign(turn.curvaturePerMetre);
  const size = Math.max(0.3 * Math.abs(turn.curvaturePerMetre), sign * (turn.curvaturePerMetre + correction));
  const bankRadians = Math.min(setup.maximumBankRadians, Math.atan((speed ** 2 * size) / (STANDARD_GRAVITY * flight.hands.turnShare)));
  return asked(atSeconds, turn.sense, rollOutDirection(turn), bankRadians);
}

/**
 * A place inside the next arc when the roll into it must begin now, half the roll before its start; else null. Rolls
 * out onto lines are the pilot's, by the heading shown.
 */
function arcBegunEarly(path: AirPath, alongMetres: number, speed: number, rollRateRadiansPerSecond: number): number | null {
  let endMetres = 0;
  for (const [index, segment] of path.segments.entries()) {
    endMetres += segment.lengthMetres;
    if (endMetres <= alongMetres) continue;
    const next = path.segments[index + 1];
    if (next === undefined || next.curvaturePerMetre === 0) return null;
    const signedBank = (curvature: number): number => Math.sign(curvature) * bankForCurvatureRadians(speed, curvature);
    const roll = Math.abs(signedBank(next.curvaturePerMetre) - signedBank(curvatureAt(path, alongMetres)));
    return endMetres - alongMetres < (speed * roll) / rollRateRadiansPerSecond / 2 ? endMetres + 0.5 : null;
  }
  return null;
}

function brokenOff(state: OnStroke, alongMetres: number, why: string): FlyingState {
  const { flight, strokeIndex } = state;
  const progress = flight.progress.map((one, index) => (index === strokeIndex ? { status: 'to-fly' as const, smokedMetres: Math.max(0, alongMetres) } : one));
  return {
    phase: 'repositioning',
    strokeIndex,
    way: null,
    onRunIn: false,
    goAround: why,
    windCircle: null,
    runOutUntilSeconds: -Infinity,
    flight: { ...flight, progress, smokeCuedAtSeconds: flight.atSeconds, advice: null },
  };
}
