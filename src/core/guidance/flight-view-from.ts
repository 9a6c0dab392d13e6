import { STATE, variance } from '../tracking/estimate.ts';
import { agedDoubtSeconds } from '../tracking/fix-time.ts';
import { isAsked } from './clock.ts';
import { doubtWords } from './place-doubt.ts';
import type { FlightView } from './flight-view.ts';
import type { AirPose } from '../paths/air-path.ts';
import { offLayer, offLayerWords } from './off-layer.ts';
import type { FlyingState, GuidanceState } from './guidance-state.ts';
import type { WordStanding } from './hanging/word-standing.ts';
import { airPoseOf, frozenPoseOf, isTrusted, predictedAt } from './present.ts';

/** How the word will stand; its code may come later than the first cue. */
export type Foretell = (state: FlyingState) => WordStanding | null;

/** The geometry behind the cues, for pictures; positions only while they are trusted. */
export function viewFrom(state: GuidanceState, foretell: Foretell = () => null): FlightView | null {
  if (state.phase === 'idle') return null;
  const { flight } = state;
  const strokeIndex = state.phase === 'finished' ? null : state.strokeIndex;
  const progress = strokeIndex === null ? null : flight.progress[strokeIndex]!;
  const indexes = (status: 'flown' | 'skipped'): number[] => flight.progress.flatMap((one, index) => (one.status === status ? [index] : []));
  const { estimate } = flight.tracker;
  return {
    own: isTrusted(flight) ? ownPose(state) : null,
    way: state.phase === 'repositioning' && isTrusted(flight) ? (state.way?.path ?? null) : null,
    stroke: strokeIndex === null ? null : (flight.setup.strokes[strokeIndex]?.path ?? null),
    strokeDoneMetres: state.phase === 'onStroke' ? Math.max(0, state.alongMetres) : progress?.status === 'to-fly' ? progress.smokedMetres : 0,
    doneStrokeIndexes: indexes('flown'),
    skippedStrokeIndexes: indexes('skipped'),
    doubts: doubtsOf(flight),
    placeDoubted: flight.placeDoubt !== null,
    askedSeconds: isAsked(flight) ? (flight.clockQuestion?.gapSeconds ?? null) : null,
    standing: isTrusted(flight) ? foretell(state) : null,
    variationDegrees: flight.setup.variationDegrees,
    windSigmaMetresPerSecond: estimate === null ? null : Math.sqrt((variance(estimate, STATE.windEast) + variance(estimate, STATE.windNorth)) / 2),
  };
}

const AHEAD_NOTICED_SECONDS = 1;

function doubtsOf(flight: FlyingState['flight']): string[] {
  const { placeDoubt, stampTrust } = flight;
  const off = offLayer(flight);
  const { aheadNowSeconds: ahead = 0, lateSeconds } = stampTrust;
  const aged = agedDoubtSeconds(stampTrust);
  return [
    ...(placeDoubt === null ? [] : [doubtWords(placeDoubt)]),
    ...(off === null ? [] : [offLayerWords(off)]),
    ...(aged === null ? [] : [`clock ahead or positions late by ${aged.toFixed(1)} s`]),
    ...(Math.abs(ahead) < AHEAD_NOTICED_SECONDS ? [] : [`this device’s clock is ${Math.abs(ahead).toFixed(1)} s ${ahead > 0 ? 'ahead' : 'behind'}`]),
    ...(lateSeconds === undefined ? [] : [`positions ${lateSeconds.toFixed(1)} s late`]),
  ];
}

/** Where the aircraft is in the frame that its cues come from. */
function ownPose(state: FlyingState): AirPose {
  const estimate = predictedAt(state.flight, state.flight.atSeconds)!;
  return state.phase === 'onStroke' ? frozenPoseOf(estimate, state) : airPoseOf(estimate, state.flight);
}
