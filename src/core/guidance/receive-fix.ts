import { siteFromGeodetic } from '../earth/site-frame.ts';
import { averagedWind } from './hanging/average-wind.ts';
import { type Estimate, STATE } from '../tracking/estimate.ts';
import type { Fix } from '../tracking/fix.ts';
import { agedDoubtSeconds, ageJudged, ageJudgedAgain, type FixTime, fixTime } from '../tracking/fix-time.ts';
import type { StampTrust } from '../tracking/stamp-trust.ts';
import { propagate } from '../tracking/propagate.ts';
import { type Sighting, tracked, trackerOlder } from '../tracking/tracker.ts';
import { isWatched, turnWatched } from '../tracking/watched-turns.ts';
import { directionFromBearing, radiansFromDegrees } from '../units/angle.ts';
import type { Flight, FlyingState } from './guidance-state.ts';
import { handsLearned } from './learn-hands.ts';
import { clockAnswer, clockSettled } from './clock.ts';
import { awayDoubt, jumpDoubt, lateDoubt, windDoubt } from './place-doubt.ts';
import type { PlaceDoubt } from './doubted-place.ts';
import { turnOnsetSeconds } from './turn-onset.ts';
import { watchedAsNow } from './watched-as-now.ts';
import { motionOf } from './present.ts';

/** A forecast's wind is wrong by this much in each component, one standard deviation: 13 kt of vector error. */
const FORECAST_SIGMA_METRES_PER_SECOND = 5;
/** An aircraft is usually flown within 5 % of the job's airspeed, two standard deviations: indicators and hands; common practice, no source. */
const USUAL_AIRSPEED_SHARE = 0.025;

/** Takes a fix through the gate and the filter; while the smoke is on, what it says of the past drift waits. */
export function receiveFix(state: FlyingState, fix: Fix): FlyingState {
  const { flight } = state;
  const { setup } = flight;
  const sighting = sightingFrom(fix, flight);
  if (sighting === null) return state;
  if (flight.clockQuestion !== null) return whileAsked(state, fix, sighting.sighting);
  const step = tracked(flight.tracker, sighting.sighting, motionOf(flight), {
    wind: setup.forecastWind,
    windSigmaMetresPerSecond: FORECAST_SIGMA_METRES_PER_SECOND,
    airspeedMetresPerSecond: setup.trueAirspeedMetresPerSecond,
    ...(watchedAsNow(setup) ? { usualAirspeedShare: USUAL_AIRSPEED_SHARE } : {}),
  });
  const used = step.verdict === 'used';
  const hands = used && watchedAsNow(setup) ? handsLearned(flight, step.tracker.estimate!) : flight.hands;
  const aged = agedDoubtSeconds(sighting.trust);
  const stampTrust = state.phase === 'onStroke' ? sighting.trust : byTurns({ ...flight, tracker: step.tracker, stampTrust: sighting.trust }, aged);
  const { anchor } = stampTrust;
  // Found late, all fixes were: where the aircraft was has not jumped.
  const laterSeconds =
    anchor === undefined || anchor === sighting.trust.anchor ? 0 : anchor.ageSeconds - flight.atSeconds + sighting.sighting.measuredAtSeconds;
  const begunAgain = used && flight.tracker.estimate !== null && step.tracker.lastChiSquare === null;
  const next: Flight = {
    ...flight,
    tracker: laterSeconds === 0 ? step.tracker : trackerOlder(step.tracker, laterSeconds),
    windAverage: used ? averagedWind(flight, step.tracker.estimate!) : flight.windAverage,
    stampTrust,
    stampLessFlightSeconds: fix.stampMilliseconds === null ? flight.stampLessFlightSeconds : fix.stampMilliseconds / 1000 - flight.atSeconds,
    hands,
    lastVerdict: step.verdict,
    lastUsedAtSeconds: used ? flight.atSeconds : flight.lastUsedAtSeconds,
    fixesLost: used ? null : flight.fixesLost,
    clockInDoubt: used ? false : flight.clockInDoubt,
    altitudeMetres: fix.altitudeMetres ?? flight.altitudeMetres,
    ...datumByStamps(flight, fix, sighting),
    placeDoubt: newDoubt(flight, stampTrust, begunAgain ? jumpDoubt(flight, flight.tracker, sighting.sighting, step.tracker.velocities) : null),
  };
  const kept = used ? doubted(next) : next;
  return state.phase === 'onStroke' ? { ...state, ...deferred(state, used ? step.tracker.estimate : null), flight: kept } : { ...state, flight: kept };
}

/** The line before the first turn is straight for so long and what the onset needs: nothing late was flown before it. */
const WATCHED_SECONDS = 2;

/** What a turn tells of the time of the fixes; under smoke nothing changes. */
function byTurns(flight: Flight, aged: number | null): StampTrust {
  const { stampTrust, turnCue, setup, smokeCuedAtSeconds } = flight;
  if (turnCue === null || (aged === null && !(watchedAsNow(setup) && isWatched(stampTrust)))) return stampTrust;
  const onsetSeconds = turnOnsetSeconds(flight, aged ?? WATCHED_SECONDS);
  if (onsetSeconds === null || stampTrust.turns?.lastCuedAtSeconds === turnCue.fromSeconds) return stampTrust;
  const turns = turnWatched(stampTrust.turns, turnCue.fromSeconds, onsetSeconds, smokeCuedAtSeconds !== null);
  if (aged === null || stampTrust.turns?.verdict === 'doubted') return ageJudgedAgain({ ...stampTrust, turns });
  return ageJudged({ ...stampTrust, turns: { ...turns, verdict: 'in-time' } });
}

/** Positions that come late also seem to jump: that is not said over it. */
function newDoubt({ placeDoubt, stampTrust: before }: Flight, stampTrust: StampTrust, jump: PlaceDoubt | null): PlaceDoubt | null {
  return placeDoubt?.kind === 'late' ? placeDoubt : (jump ?? placeDoubt ?? lateDoubt(before, stampTrust));
}

/** What stays in doubt of the place once fixes come again. */
function doubted(flight: Flight): Flight {
  if (!watchedAsNow(flight.setup)) return { ...flight, placeDoubt: null };
  const placeDoubt = flight.placeDoubt ?? awayDoubt(flight) ?? windDoubt(flight);
  return { ...flight, placeDoubt, awaySeconds: placeDoubt?.kind === 'away' ? flight.awaySeconds : 0 };
}

/** Under smoke, what a fix says of the past drift waits. */
function deferred(
  state: Extract<FlyingState, { phase: 'onStroke' }>,
  found: Estimate | null,
): Pick<typeof state, 'deferredEastMetres' | 'deferredNorthMetres'> {
  const { flight } = state;
  if (found === null || flight.tracker.estimate === null) return state;
  const believed = propagate(flight.tracker.estimate, found.atSeconds, motionOf(flight), false);
  return {
    deferredEastMetres: state.deferredEastMetres + found.mean[STATE.driftEast]! - believed.mean[STATE.driftEast]!,
    deferredNorthMetres: state.deferredNorthMetres + found.mean[STATE.driftNorth]! - believed.mean[STATE.driftNorth]!,
  };
}

/** A fix while it is open whether the page slept or the clock was set: it settles that, or is looked at and left. */
function whileAsked(state: FlyingState, fix: Fix, sighting: Sighting): FlyingState {
  const { flight } = state;
  const { stampMilliseconds } = fix;
  const { stampLessFlightSeconds, clockQuestion: question } = flight;
  if (question === null) return state;
  const moved = stampMilliseconds === null || stampLessFlightSeconds === null ? null : stampMilliseconds / 1000 - flight.atSeconds - stampLessFlightSeconds;
  // Asleep and set besides: a receiver's own stamps say how much of it was sleep.
  const slept =
    moved === null || Math.abs(moved - question.gapSeconds) < SLEPT_APART_SECONDS ? flight : { ...flight, clockQuestion: { ...question, gapSeconds: moved } };
  const asked = slept !== flight && clockAnswer(slept, sighting, moved) === 'slept' ? slept : flight;
  const answer = clockAnswer(asked, sighting, moved);
  if (answer === 'open') return { ...state, flight: { ...flight, clockQuestion: { ...question, unsettledFixes: question.unsettledFixes + 1 } } };
  const settled = clockSettled(asked, answer);
  // A receiver with a clock of its own shows by how much this device's is off now; one that goes by the device's moved with it.
  const ahead = answer === 'set' && moved !== null && Math.abs(moved) < Math.abs(moved - question.gapSeconds) ? question.gapSeconds : 0;
  const { stampTrust } = settled;
  const { anchor, ...rest } = stampTrust;
  const anchored =
    answer === 'slept' && anchor !== undefined
      ? { anchor: { ...anchor, stampLessFlightSeconds: anchor.stampLessFlightSeconds + (asked.clockQuestion?.gapSeconds ?? 0) } }
      : anchor === undefined
        ? {}
        : { anchor };
  const trust = { ...rest, ...anchored, clockAheadSeconds: (stampTrust.clockAheadSeconds ?? 0) + (anchor === undefined ? ahead : 0), heldUpCount: 0 };
  return receiveFix({ ...state, flight: { ...settled, stampTrust: trust } }, fix);
}

/** Stamps that moved otherwise than the wall clock by so much are of another clock. */
const SLEPT_APART_SECONDS = 1;

interface SightingFound {
  readonly sighting: Sighting;
  readonly trust: Flight['stampTrust'];
  readonly source: FixTime['source'];
}

/** A device's clock that is further off than this is caught by the stamps' age, and is no small correction. */
const CORRECTED_SECONDS = 20;

/** A datum that was typed as a time: by the receiver's time, once, as soon as it is told; so ships agree without a call. */
function datumByStamps({ setup, datumAtSeconds, datumOnStamps }: Flight, { stampMilliseconds }: Fix, { sighting, source }: SightingFound): Partial<Flight> {
  const { datum } = setup;
  if (datum.kind !== 'at-time' || datum.called === true || datumOnStamps || datumAtSeconds === null) return {};
  if (source !== 'stamp' || stampMilliseconds === null) return {};
  const bySatellite = sighting.measuredAtSeconds + (datum.wallMilliseconds - stampMilliseconds) / 1000;
  return Math.abs(bySatellite - datumAtSeconds) > CORRECTED_SECONDS ? {} : { datumAtSeconds: bySatellite, datumOnStamps: true };
}

function sightingFrom(fix: Fix, flight: Flight): SightingFound | null {
  const { latitudeDegrees, longitudeDegrees, accuracyMetres, groundSpeedMetresPerSecond, trackDegrees } = fix;
  if (!(Math.abs(latitudeDegrees) <= 90) || !Number.isFinite(longitudeDegrees)) return null;
  const { eastMetres, northMetres } = siteFromGeodetic({ latitudeDegrees, longitudeDegrees }, flight.setup.layerHeightMetres, flight.setup.site);
  const time = fixTime(flight.atSeconds, flight.wallMilliseconds, fix.stampMilliseconds, flight.stampTrust);
  const moving =
    groundSpeedMetresPerSecond !== null &&
    trackDegrees !== null &&
    Number.isFinite(trackDegrees) &&
    groundSpeedMetresPerSecond > 15 &&
    groundSpeedMetresPerSecond < 400;
  const direction = moving ? directionFromBearing(radiansFromDegrees(trackDegrees)) : 0;
  return {
    trust: time.trust,
    source: time.source,
    sighting: {
      eastMetres,
      northMetres,
      measuredAtSeconds: time.measuredAtSeconds,
      accuracyMetres,
      velocity: moving
        ? {
            eastMetresPerSecond: groundSpeedMetresPerSecond * Math.cos(direction),
            northMetresPerSecond: groundSpeedMetresPerSecond * Math.sin(direction),
          }
        : null,
    },
  };
}
