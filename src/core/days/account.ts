import type { LogbookEntry } from '../debrief/logbook.ts';
import type { Job } from '../job/job.ts';
import { poundsFromKilograms } from '../units/quantity.ts';

/** One flight on the account: what it took. */
export interface AccountLine {
  readonly flightId: string;
  readonly startedAtMilliseconds: number;
  readonly text: string;
  readonly hours: number;
  readonly oilPounds: number;
  /** By the ship's own burn and the hours in the air; null where nobody has said what it burns. */
  readonly fuelGallons: number | null;
}

/** What a job came to. */
export interface Account {
  readonly lines: readonly AccountLine[];
  readonly hours: number;
  readonly oilPounds: number;
  readonly fuelGallons: number | null;
  readonly costAmount: number;
}

/** The account of a job by its real flights: rehearsals and replays cost nothing. */
export function accountOf(job: Job, entries: readonly LogbookEntry[]): Account {
  const fuelSaid = !job.notEntered.includes('ships.fuelGallonsPerHour');
  const lines = entries
    .filter(({ jobId, kind }) => jobId === job.id && kind === 'flight')
    .toSorted((one, other) => one.startedAtMilliseconds - other.startedAtMilliseconds)
    .map(({ flightId, startedAtMilliseconds, text, flownSeconds, oilKilograms, shipName }): AccountLine => {
      const burnt = job.ships.find(({ name }) => name === shipName)?.fuelGallonsPerHour ?? job.ships[0]?.fuelGallonsPerHour;
      return {
        flightId,
        startedAtMilliseconds,
        text,
        hours: flownSeconds / 3600,
        oilPounds: poundsFromKilograms(oilKilograms),
        fuelGallons: fuelSaid && burnt !== undefined ? (burnt * flownSeconds) / 3600 : null,
      };
    });
  const sum = (of: (line: AccountLine) => number): number => lines.reduce((total, line) => total + of(line), 0);
  return {
    lines,
    hours: sum(({ hours }) => hours),
    oilPounds: sum(({ oilPounds }) => oilPounds),
    fuelGallons: lines.some(({ fuelGallons }) => fuelGallons === null) ? null : sum(({ fuelGallons }) => fuelGallons ?? 0),
    costAmount: job.booking.outcomes.reduce((total, { costAmount }) => total + (costAmount ?? 0), 0),
  };
}
