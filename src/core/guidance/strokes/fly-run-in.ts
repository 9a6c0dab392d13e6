import type { AirPose } from '../../paths/air-path.ts';
import { relativeTo } from '../../paths/project-on-path.ts';
import { asked, type TurnCommand } from '../../tracking/turn-command.ts';
import { signedRadians } from '../../units/angle.ts';
import { earRunIn } from './ear-run-in.ts';
import { interceptDirection } from './follow-line.ts';
import { FIX_AGE_SECONDS, gateRefusal, tooLateWords } from '../gate.ts';
import type { Advice, Flight, FlyingState } from '../guidance-state.ts';
import { airPoseOf, driftOf, fixAgeSeconds, predictedAt } from '../present.ts';
import { agedDoubtSeconds } from '../../tracking/fix-time.ts';
import { bankForCurvatureRadians } from '../../paths/turn.ts';
import { offLayer, offLayerWords } from '../off-layer.ts';
import { doubtWords } from '../place-doubt.ts';
import type { Way } from '../ways/solve-way.ts';
import { smokeLeadSeconds } from './smoke-lead.ts';
import { startAlongMetres } from './stroke-start.ts';
import { turnLeadSeconds } from '../ways/turn-lead.ts';
import { rollOutDirection, turnAhead } from '../ways/turn-ahead.ts';
import { SMALL_TURN_RADIANS, TURN_LEFT_RADIANS } from '../ways/way-advice.ts';

type Repositioning = Extract<FlyingState, { phase: 'repositioning' }>;

/** A correction is seen or heard some seconds late: gentle ones, that end on a heading the gate lets pass. At 4 s and 20 degrees hands chased the line. */
const RUN_IN_LOOKAHEAD_SECONDS = 6;
const RUN_IN_INTERCEPT_RADIANS = (10 * Math.PI) / 180;

/** Holds the stroke's line before its start, cues the smoke when the gate lets it, or sends the pilot around. */
export function flyRunIn(
  state: Repositioning,
  start: AirPose,
  speed: number,
  aheadSeconds: number,
  toGoMetres: number,
  rightMetres: number,
  headingNow: number,
): FlyingState {
  const { flight, strokeIndex } = state;
  const { setup, atSeconds } = flight;
  const direction = interceptDirection(start.directionRadians, rightMetres, RUN_IN_LOOKAHEAD_SECONDS * speed, RUN_IN_INTERCEPT_RADIANS);
  const toStartSeconds = toGoMetres / speed + aheadSeconds;
  const smokeInSeconds = toStartSeconds - setup.valveOnSeconds;
  const byEar = flight.byEar ? earRunIn(flight, start, speed) : null;
  const advice: Advice = {
    command: byEar?.command ?? headingCommand(flight, direction, headingNow),
    smokeInSeconds: Math.max(0, smokeInSeconds),
    crossTrackMetres: rightMetres,
    because: 'run-in',
    next: byEar?.next ?? nextTurn(flight, strokeIndex, speed, Math.max(0, toStartSeconds - turnLeadSeconds(flight))),
  };
  const way: Way | null = state.way === null ? null : { ...state.way, seconds: Math.max(0, toGoMetres / speed) };
  const leadSeconds = smokeLeadSeconds(flight);
  if (smokeInSeconds > leadSeconds) return { ...state, way, onRunIn: true, goAround: null, flight: { ...flight, advice } };

  const onAt = predictedAt(flight, atSeconds + leadSeconds + setup.valveOnSeconds)!;
  const poseAtOn = airPoseOf(onAt, flight);
  const refusal =
    timeOrPlaceRefusal(flight) ??
    gateRefusal(
      {
        crossTrackMetres: relativeTo(start, poseAtOn).rightMetres,
        headingErrorRadians: poseAtOn.directionRadians - start.directionRadians,
        airspeedMetresPerSecond: speed,
        fixAgeSeconds: fixAgeSeconds(flight)!,
        lateSeconds: -smokeInSeconds,
      },
      setup.letterHeightMetres,
      setup.trueAirspeedMetresPerSecond,
    );
  if (refusal !== null)
    return { ...state, way: null, onRunIn: false, goAround: refusal, flight: { ...flight, advice: { ...advice, smokeInSeconds: null, because: refusal } } };
  return {
    phase: 'onStroke',
    strokeIndex,
    alongMetres: startAlongMetres(flight.progress[strokeIndex]!) - Math.max(0, toStartSeconds) * speed,
    onSinceSeconds: atSeconds,
    deferredEastMetres: 0,
    deferredNorthMetres: 0,
    flight: {
      ...flight,
      undo: null,
      smokeCuedAtSeconds: atSeconds,
      ...datumAtFirstSmoke(flight, atSeconds + Math.max(0, toStartSeconds)),
      // The count was to the smoke's beginning; to its end it is reckoned at the next moment.
      advice: { ...advice, smokeInSeconds: null },
    },
  };
}

/** No smoke where the time of the fixes or the word's place is in doubt. */
function timeOrPlaceRefusal(flight: Flight): string | null {
  const { placeDoubt, stampTrust } = flight;
  const off = offLayer(flight);
  if (off?.refused === true) return offLayerWords(off);
  if (placeDoubt !== null) return doubtWords(placeDoubt);
  const aged = agedDoubtSeconds(stampTrust);
  if (aged === null && (stampTrust.lateSeconds ?? 0) > FIX_AGE_SECONDS) return tooLateWords(stampTrust.lateSeconds!);
  return aged === null ? null : `time of the fixes in doubt by ${aged.toFixed(1)} s: fly a turn`;
}

/** A heading to fly: as a turn while it is far off, so that the wings stay where they are until it is near. */
function headingCommand({ setup, commands, atSeconds }: Flight, directionRadians: number, headingNow: number): TurnCommand {
  const toGo = signedRadians(directionRadians - headingNow);
  const sense = toGo > 0 ? 'left' : 'right';
  const last = commands.at(-1);
  const goesOn = last?.sense === sense;
  const turning = Math.abs(toGo) > (goesOn ? TURN_LEFT_RADIANS : SMALL_TURN_RADIANS);
  if (!turning) return asked(atSeconds, 'either', directionRadians);
  // The turn onto the line goes on as steeply as its way had it.
  return asked(atSeconds, sense, directionRadians, Math.max(goesOn ? last.bankRadians : 0, setup.turningBankRadians));
}

/** The drift is zero when the first smoke begins; what it was believed to be just before goes into the text's place. */
function datumAtFirstSmoke(flight: Flight, onAtSeconds: number): Pick<Flight, 'datumAtSeconds' | 'movedEastMetres' | 'movedNorthMetres'> {
  const { datumAtSeconds, movedEastMetres, movedNorthMetres } = flight;
  if (datumAtSeconds !== null) return { datumAtSeconds, movedEastMetres, movedNorthMetres };
  const drift = driftOf(predictedAt(flight, onAtSeconds)!, flight);
  return {
    datumAtSeconds: onAtSeconds,
    movedEastMetres: movedEastMetres + drift.eastMetres,
    movedNorthMetres: movedNorthMetres + drift.northMetres,
  };
}

/** The first turn of the stroke itself, if it begins with one. */
function nextTurn(flight: Flight, strokeIndex: number, speed: number, inSeconds: number): Advice['next'] {
  const { path } = flight.setup.strokes[strokeIndex]!;
  const turn = turnAhead(path, 0, path.start.directionRadians);
  if (turn === null) return null;
  return {
    command: asked(flight.atSeconds, turn.sense, rollOutDirection(turn), bankForCurvatureRadians(speed, turn.curvaturePerMetre)),
    inSeconds,
  };
}
