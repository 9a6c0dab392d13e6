import type { LetterRating as DebriefRating } from '../../core/debrief/lessons/spreading.ts';
import type { LetterRating } from '../../core/wire/link-messages.ts';
import { type ObserverEntry, type ObserverLog, standingEntries } from '../../core/wire/observer-log.ts';
import { onLastHack } from '../../core/wire/on-last-hack.ts';
import type { DeskShip } from './desk-types.ts';

/** A note, rating or call of an observer, laid on a flight's clock. */
export interface ObservedMoment {
  readonly atMilliseconds: number;
  readonly observerName: string;
  readonly entry: ObserverEntry;
  /** By the time hack, which no clock can have set wrong; else by the observer's own clock. */
  readonly timedBy: 'hack' | 'clock';
}

const READS: Readonly<Record<LetterRating, DebriefRating['reads']>> = { reads: 'well', weak: 'hardly', broken: 'no', 'not-seen': 'no' };

/** What observers wrote down during a flight, in order of time; what falls outside of it by an hour and more is left out. */
export function observedMoments(
  logs: readonly ObserverLog[],
  datumMilliseconds: number | null,
  fromMilliseconds: number,
  toMilliseconds: number,
): ObservedMoment[] {
  const reachMilliseconds = 3_600_000;
  return logs
    .flatMap(({ observerName, entries }) =>
      onLastHack(standingEntries(entries)).flatMap((entry): ObservedMoment[] => {
        if (entry.kind === 'hack') return [];
        const byHack = entry.sinceDatumSeconds !== null && datumMilliseconds !== null;
        const atMilliseconds = byHack ? datumMilliseconds + (entry.sinceDatumSeconds ?? 0) * 1000 : entry.atMilliseconds;
        return [{ atMilliseconds, observerName, entry, timedBy: byHack ? 'hack' : 'clock' }];
      }),
    )
    .filter(({ atMilliseconds }) => atMilliseconds >= fromMilliseconds && atMilliseconds <= toMilliseconds + reachMilliseconds)
    .sort((one, other) => one.atMilliseconds - other.atMilliseconds);
}

/** The same on the clock of the first ship on the desk, from its first position to its last; none without a ship. */
export function observedOf(logs: readonly ObserverLog[], ship: Pick<DeskShip, 'log' | 'debrief'> | undefined): ObservedMoment[] {
  if (ship === undefined) return [];
  const { log, debrief } = ship;
  const toUtc = (seconds: number): number => log.zeroMilliseconds + seconds * 1000;
  return observedMoments(
    logs,
    debrief === null ? null : toUtc(debrief.datumSeconds),
    toUtc(log.track.atSeconds[0] ?? 0),
    toUtc(log.track.atSeconds.at(-1) ?? 0),
  );
}

/** The ratings among them, as the lessons take them. */
export function ratingsOf(moments: readonly ObservedMoment[], datumMilliseconds: number): DebriefRating[] {
  return moments.flatMap(({ entry, atMilliseconds }) =>
    entry.kind === 'rated' ? [{ letterIndex: entry.letterIndex, atSeconds: (atMilliseconds - datumMilliseconds) / 1000, reads: READS[entry.rating] }] : [],
  );
}
