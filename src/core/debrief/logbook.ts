import type { ShipDebrief } from './ship-debrief.ts';
import type { LetterRating } from './lessons/spreading.ts';

/** One flight in the logbook. */
export interface LogbookEntry {
  readonly flightId: string;
  readonly jobId: string;
  readonly name: string;
  readonly text: string;
  readonly shipName: string;
  readonly kind: 'flight' | 'rehearsal' | 'replay';
  /** UTC. */
  readonly startedAtMilliseconds: number;
  /** Moving at flying speed. */
  readonly flownSeconds: number;
  readonly smokeSeconds: number;
  readonly oilKilograms: number;
  readonly strokesFlown: number;
  readonly strokesPlanned: number;
  /** Every letter's lines carry smoke for nine tenths at least. */
  readonly complete: boolean;
  /** What the ground said of the whole word: every rated letter read at some time, some did not, or nobody said. */
  readonly read: 'yes' | 'in part' | 'not rated';
}

/** What a logbook adds up to. */
export interface LogbookTotals {
  readonly flights: number;
  readonly flownSeconds: number;
  readonly oilKilograms: number;
  readonly wordsComplete: number;
  readonly wordsRead: number;
  readonly wordsRated: number;
}

const SLOWEST_METRES_PER_SECOND = 15;
/** A letter with less of its lines in smoke is broken. */
const WHOLE_COVERAGE = 0.9;

/** The entry of a flight that was debriefed. */
export function logbookEntry(
  debrief: ShipDebrief,
  ratings: readonly LetterRating[],
  of: Pick<LogbookEntry, 'flightId' | 'jobId' | 'name' | 'text' | 'kind' | 'startedAtMilliseconds'>,
): LogbookEntry {
  const { log, letterScores, intervals, flight } = debrief;
  const rated = [...new Set(ratings.map(({ letterIndex }) => letterIndex))];
  const readAtSomeTime = rated.filter((letterIndex) => ratings.some((rating) => rating.letterIndex === letterIndex && rating.reads !== 'no'));
  return {
    ...of,
    shipName: log.setup.shipName,
    flownSeconds: flownSeconds(debrief),
    smokeSeconds: intervals.reduce((sum, { onSeconds, offSeconds }) => sum + offSeconds - onSeconds, 0),
    oilKilograms: flight.oilUsedKilograms,
    strokesFlown: flight.strokesFlown,
    strokesPlanned: log.setup.strokes.length,
    complete: letterScores.length > 0 && letterScores.every(({ coverage, strokesMissing }) => coverage >= WHOLE_COVERAGE && strokesMissing === 0),
    read: rated.length === 0 ? 'not rated' : readAtSomeTime.length === rated.length ? 'yes' : 'in part',
  };
}

/** The sums of some entries. */
export function logbookTotals(entries: readonly LogbookEntry[]): LogbookTotals {
  return {
    flights: entries.length,
    flownSeconds: entries.reduce((sum, entry) => sum + entry.flownSeconds, 0),
    oilKilograms: entries.reduce((sum, entry) => sum + entry.oilKilograms, 0),
    wordsComplete: entries.filter(({ complete }) => complete).length,
    wordsRead: entries.filter(({ read }) => read === 'yes').length,
    wordsRated: entries.filter(({ read }) => read !== 'not rated').length,
  };
}

function flownSeconds({ log: { track } }: ShipDebrief): number {
  const gaps = new Set(track.segmentStarts);
  let sum = 0;
  for (let index = 1; index < track.atSeconds.length; index += 1) {
    if (gaps.has(index)) continue;
    const speed = Math.hypot(track.eastMetresPerSecond[index]!, track.northMetresPerSecond[index]!);
    if (speed >= SLOWEST_METRES_PER_SECOND) sum += track.atSeconds[index]! - track.atSeconds[index - 1]!;
  }
  return sum;
}
