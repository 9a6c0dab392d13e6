import { ORDINARY_ONSET_SECONDS, type StampTrust } from './fix-time.ts';

/** What turns out of straight flight say of the time that is believed of the fixes. */
export interface WatchedTurns {
  /** The cue of the last one that was looked at. */
  readonly lastCuedAtSeconds: number;
  /** From its cue to its trace, beyond what hand and roll take. */
  readonly beyondSeconds: number;
  /** `doubted`: no smoke until one more turn has told; `late`: two told the same, and the pilot is asked, once. */
  readonly verdict: 'in-time' | 'doubted' | 'late';
}

/**
 * One turn raises the doubt, the mean of it and the next settles it. At the desk the turns of an obedient pilot came -2.1 to
 * 1.1 s beyond, those of one who glances and listens up to 3.4 s.
 */
const DOUBTED_BEYOND_SECONDS = 2.6;
const CONFIRMED_BEYOND_SECONDS = 2.6;

/**
 * Stamps that look ordinary may be wrong all the same: positions late by 4 s on a clock that is 3 s behind look a second old. A
 * turn that was cued shows it by its trace in the track, but a slow hand looks alike: what two turns say is asked, not taken off.
 *
 * @param onsetSeconds from the turn's cue to its first trace, by the times that are believed
 */
export function turnWatched(before: WatchedTurns | undefined, cuedAtSeconds: number, onsetSeconds: number): WatchedTurns {
  if (before !== undefined && (before.lastCuedAtSeconds === cuedAtSeconds || before.verdict === 'late')) return before;
  const beyondSeconds = onsetSeconds - ORDINARY_ONSET_SECONDS;
  const doubted = before?.verdict === 'doubted';
  const meanSeconds = (beyondSeconds + (before?.beyondSeconds ?? 0)) / 2;
  const turns = { lastCuedAtSeconds: cuedAtSeconds, beyondSeconds: doubted ? meanSeconds : beyondSeconds };
  if (doubted) return { ...turns, verdict: meanSeconds > CONFIRMED_BEYOND_SECONDS ? 'late' : 'in-time' };
  return { ...turns, verdict: beyondSeconds > DOUBTED_BEYOND_SECONDS ? 'doubted' : 'in-time' };
}

/** Whether turns are looked at: stamps that look ordinary, and not known to be late. */
export function isWatched({ anchor, lateSeconds, turns }: StampTrust): boolean {
  return anchor !== undefined && lateSeconds === undefined && turns?.verdict !== 'late';
}
