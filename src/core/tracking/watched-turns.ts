import { ORDINARY_ONSET_SECONDS } from './fix-time.ts';
import type { StampTrust } from './stamp-trust.ts';
import type { WatchedTurns } from './turns-watched.ts';

/**
 * One turn before the first smoke raises the doubt; the mean of the last two, three or four says late. At the desk single turns
 * came -2.2 to 3.3 s beyond; a pilot who glances came to 2.8 and 2.1 s in a row, to 1.6 s of three and to 1.3 s of four.
 */
const DOUBTED_BEYOND_SECONDS = 2.2;
const LATE_BEYOND_SECONDS = [2.6, 2.1, 1.7];
const KEPT_TURNS = 4;

/**
 * Stamps that look ordinary may be wrong all the same: positions late by 4 s on a clock that is 3 s behind look a second old. A
 * turn that was cued shows it by its trace in the track, but a slow hand looks alike: what several turns say is asked, not taken off.
 *
 * @param onsetSeconds from the turn's cue to its first trace, by the times that are believed
 * @param smoked whether smoke was laid already: then one slow hand is not worth a go-around
 */
export function turnWatched(before: WatchedTurns | undefined, cuedAtSeconds: number, onsetSeconds: number, smoked: boolean): WatchedTurns {
  if (before !== undefined && (before.lastCuedAtSeconds === cuedAtSeconds || before.verdict === 'late')) return before;
  const lastSeconds = onsetSeconds - ORDINARY_ONSET_SECONDS;
  const beyonds = [...(before?.beyonds ?? []), lastSeconds].slice(-KEPT_TURNS);
  const means = LATE_BEYOND_SECONDS.map((_, index) => (beyonds.length < index + 2 ? 0 : meanOf(beyonds.slice(-2 - index))));
  const turns = { lastCuedAtSeconds: cuedAtSeconds, beyonds };
  const lateSeconds = means.find((mean, index) => mean > LATE_BEYOND_SECONDS[index]!);
  if (lateSeconds !== undefined) return { ...turns, beyondSeconds: lateSeconds, verdict: 'late' };
  // Two that told nearly the same are followed by a third.
  const again = before?.verdict !== 'doubted' ? lastSeconds > DOUBTED_BEYOND_SECONDS : means[0]! > LATE_BEYOND_SECONDS[1]! && before.doubtedBefore !== true;
  const doubted = !smoked && again;
  return {
    ...turns,
    beyondSeconds: lastSeconds,
    verdict: doubted ? 'doubted' : 'in-time',
    ...(doubted && before?.verdict === 'doubted' ? { doubtedBefore: true } : {}),
  };
}

/** Whether turns are looked at: stamps that have been believed, and the pilot not asked yet. */
export function isWatched({ anchor, turns }: StampTrust): boolean {
  return anchor !== undefined && turns?.verdict !== 'late';
}

function meanOf(seconds: readonly number[]): number {
  return seconds.reduce((sum, one) => sum + one, 0) / Math.max(1, seconds.length);
}
