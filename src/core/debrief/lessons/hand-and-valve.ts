import { type Measured, measuredMean } from '../measured.ts';
import type { SmokeInterval } from '../smoke-intervals.ts';

/** A mark of a switch, or of smoke seen, is not better than this. */
const MARK_SIGMA_SECONDS = 0.1;
/** Beyond these a pair does not belong together. */
const MOST_REACTION_SECONDS = 4;
const MOST_LATENCY_SECONDS = 6;

/** From the cue's change to the hand's, where the true switch was marked. Null for under three switchings. */
export function reactionFromSwitch(intervals: readonly SmokeInterval[]): Measured | null {
  const seconds = intervals.flatMap(({ cuedOnSeconds, switchedOnSeconds, cuedOffSeconds, switchedOffSeconds }) => [
    ...between(cuedOnSeconds, switchedOnSeconds),
    ...between(cuedOffSeconds, switchedOffSeconds),
  ]);
  return measuredMean(
    seconds.filter((each) => each > -1 && each < MOST_REACTION_SECONDS),
    MARK_SIGMA_SECONDS,
  );
}

/**
 * From the switch to the smoke, opening and closing, where somebody saw the smoke: from the marked switch, or from the
 * cue and the pilot's reaction where the switch was not marked. Null for under three of a kind.
 *
 * @param reactionSeconds used for switchings that were not marked
 */
export function valveLatencies(intervals: readonly SmokeInterval[], reactionSeconds: number): { readonly on: Measured | null; readonly off: Measured | null } {
  const seen = intervals.filter(({ source }) => source === 'seen');
  const latency = (switched: number | null, cued: number | null, smoke: number): number[] =>
    between(switched ?? (cued === null ? null : cued + reactionSeconds), smoke);
  const plausible = (seconds: number): boolean => seconds > -1 && seconds < MOST_LATENCY_SECONDS;
  return {
    on: measuredMean(
      seen.flatMap(({ switchedOnSeconds, cuedOnSeconds, onSeconds }) => latency(switchedOnSeconds, cuedOnSeconds, onSeconds)).filter(plausible),
      MARK_SIGMA_SECONDS,
    ),
    off: measuredMean(
      seen.flatMap(({ switchedOffSeconds, cuedOffSeconds, offSeconds }) => latency(switchedOffSeconds, cuedOffSeconds, offSeconds)).filter(plausible),
      MARK_SIGMA_SECONDS,
    ),
  };
}

function between(from: number | null, to: number | null): number[] {
  return from === null || to === null ? [] : [to - from];
}
