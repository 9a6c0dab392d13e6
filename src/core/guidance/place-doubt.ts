import { STATE, variance } from '../tracking/estimate.ts';
import { propagate } from '../tracking/propagate.ts';
import type { Sighting, Tracker } from '../tracking/tracker.ts';
import type { Flight } from './guidance-state.ts';
import { motionOf } from './present.ts';

/** Why the word's place is doubted. */
export type PlaceDoubt =
  /** The position went where no aircraft flies, and stayed. */
  | { readonly kind: 'jumped'; readonly metres: number }
  /** A wind that no layer has: the position creeps, or the airspeed is another. */
  | { readonly kind: 'wind-odd' }
  /** The page slept so long that the drift since is no longer known to a tenth of a letter. */
  | { readonly kind: 'away'; readonly seconds: number; readonly metres: number };

/** A position begun again farther than this from where the aircraft can be has jumped. */
const JUMPED_METRES = 110;
/** Without a cue the wings are level: an aircraft strays from there by so much at most, unless the pilot flew elsewhere on purpose. */
const UNFORETOLD_METRES_PER_SECOND = 25;
/** Lost from sight in a turn for longer than this, an aircraft may have come round to anywhere: it is told by its speed alone. */
const CAME_ROUND_SECONDS = 15;
/** No layer at these heights is flown in with more wind than this against what was found or forecast. */
const ODD_METRES_PER_SECOND = 15;
const KNOWN_PER_LETTER_HEIGHT = 0.1;

/**
 * The doubt that a filter begun again leaves: the new place against where the old one can have come to.
 *
 * @param before the tracker that was trusted last
 */
export function jumpDoubt(flight: Flight, before: Tracker, sighting: Sighting): PlaceDoubt | null {
  const { estimate } = before;
  if (estimate === null) return null;
  const gapSeconds = sighting.measuredAtSeconds - estimate.atSeconds;
  const there = propagate(estimate, sighting.measuredAtSeconds, motionOf(flight), false);
  const metres = Math.hypot(there.mean[STATE.east]! - sighting.eastMetres, there.mean[STATE.north]! - sighting.northMetres);
  const turning = flight.commands.findLast(({ fromSeconds }) => fromSeconds <= estimate.atSeconds)?.sense !== 'either';
  const strayed = turning && gapSeconds > CAME_ROUND_SECONDS ? flight.setup.trueAirspeedMetresPerSecond : UNFORETOLD_METRES_PER_SECOND;
  return metres > JUMPED_METRES + strayed * Math.max(0, gapSeconds - 1) ? { kind: 'jumped', metres } : null;
}

/** The doubt of a wind that cannot be, once it is thought to be known. */
export function windDoubt({ setup, tracker: { estimate }, windAverage, smokeCuedAtSeconds }: Flight): PlaceDoubt | null {
  if (estimate === null || windAverage === null || smokeCuedAtSeconds === null || windAverage.seconds < 60) return null;
  const { wind } = windAverage;
  const apart = Math.hypot(estimate.mean[STATE.windEast]! - wind.eastMetresPerSecond, estimate.mean[STATE.windNorth]! - wind.northMetresPerSecond);
  const airspeedOff = Math.abs(estimate.mean[STATE.airspeed]! / setup.trueAirspeedMetresPerSecond - 1);
  return apart > ODD_METRES_PER_SECOND || airspeedOff > 0.25 ? { kind: 'wind-odd' } : null;
}

/** The doubt of a drift that went on unseen while the page slept. */
export function awayDoubt({ awaySeconds, datumAtSeconds, setup, tracker: { estimate }, smokeCuedAtSeconds }: Flight): PlaceDoubt | null {
  if (awaySeconds === 0 || datumAtSeconds === null || estimate === null || smokeCuedAtSeconds === null) return null;
  const metres = Math.sqrt((variance(estimate, STATE.driftEast) + variance(estimate, STATE.driftNorth)) / 2);
  return metres > KNOWN_PER_LETTER_HEIGHT * setup.letterHeightMetres ? { kind: 'away', seconds: awaySeconds, metres } : null;
}

/** In words for the pilot. */
export function doubtWords(doubt: PlaceDoubt): string {
  switch (doubt.kind) {
    case 'jumped':
      return `position jumped ${doubt.metres >= 950 ? `${(doubt.metres / 1000).toFixed(1)} km` : `${Math.round(doubt.metres / 10) * 10} m`}`;
    case 'wind-odd':
      return 'wind odd';
    case 'away':
      return `away ${Math.round(doubt.seconds)} s, place off by ${Math.round(doubt.metres / 10) * 10} m`;
  }
}
