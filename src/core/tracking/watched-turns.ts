import { ORDINARY_ONSET_SECONDS, type StampTrust } from './fix-time.ts';

/** What turns out of straight flight say of the time that is believed of the fixes. */
export interface WatchedTurns {
  /** The cue of the last one that was looked at. */
  readonly lastCuedAtSeconds: number;
  /** From their cues to their traces, beyond what hand and roll take: the last ones, newest last. */
  readonly beyonds: readonly number[];
  /** What they say together. */
  readonly beyondSeconds: number;
  /** `doubted`: no smoke until one more turn has told; `late`: several told the same, and the pilot is asked, once. */
  readonly verdict: 'in-time' | 'doubted' | 'late';
}

/**
 * One turn before the first smoke raises the doubt; the mean of two, or of four, says late. At the desk single turns came -2.2
 * to 3.3 s beyond, the mean of two at most 1.5 and of four 1.3, of 120 flights by eye and ear, by ordinary pilots and in formation.
 */
const DOUBTED_BEYOND_SECONDS = 2.2;
const TWO_BEYOND_SECONDS = 2.1;
const FOUR_BEYOND_SECONDS = 1.6;
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
  const two = meanOf(beyonds.slice(-2));
  const four = meanOf(beyonds);
  const late = (beyonds.length >= 2 && two > TWO_BEYOND_SECONDS) || (beyonds.length === KEPT_TURNS && four > FOUR_BEYOND_SECONDS);
  const turns = { lastCuedAtSeconds: cuedAtSeconds, beyonds };
  if (late) return { ...turns, beyondSeconds: Math.max(two, four), verdict: 'late' };
  const doubted = !smoked && before?.verdict !== 'doubted' && lastSeconds > DOUBTED_BEYOND_SECONDS;
  return { ...turns, beyondSeconds: lastSeconds, verdict: doubted ? 'doubted' : 'in-time' };
}

/** Whether turns are looked at: stamps that have been believed, and the pilot not asked yet. */
export function isWatched({ anchor, turns }: StampTrust): boolean {
  return anchor !== undefined && turns?.verdict !== 'late';
}

function meanOf(seconds: readonly number[]): number {
  return seconds.reduce((sum, one) => sum + one, 0) / Math.max(1, seconds.length);
}
