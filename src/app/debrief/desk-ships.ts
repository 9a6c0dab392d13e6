import { computed, type ReadonlySignal } from '@preact/signals';
import { debriefShip } from '../../core/debrief/ship-debrief.ts';
import type { Job } from '../../core/job/job.ts';
import type { DeskSignals } from './desk-signals.ts';
import type { DeskShip } from './desk-types.ts';
import { type FlightSpan, flightOfTrack } from './flight-of-track.ts';
import type { ImportedTrack } from './imported-tracks.ts';
import { createTrackJudge } from './track-judge.ts';

/** The ships of the open flight, and which flight each imported track belongs to. */
export interface DeskShips {
  /** This device's own, judged once its log has been replayed; null while no flight is open. */
  readonly ownShip: ReadonlySignal<DeskShip | null>;
  readonly ships: ReadonlySignal<readonly DeskShip[]>;
  readonly trackFlights: ReadonlySignal<ReadonlyMap<string, string | null>>;
  /** The flight a track was recorded in; null for none. */
  flightOf(imported: ImportedTrack): string | null;
  /** A track of no flight stands beside each; one of a flight beside that alone. */
  ownsTrack(flightId: string | null): boolean;
}

/** Follows the desk's signals; `job` is the open flight's, or the stored one. */
export function createDeskShips({ flights, state, own, ownSeen, tracks, planned }: DeskSignals, job: ReadonlySignal<Job | null>): DeskShips {
  const openSpan = computed((): FlightSpan | null => {
    const opened = state.value;
    if (opened.kind !== 'open' || own.value === null) return null;
    const { track, zeroMilliseconds } = own.value.log;
    const atMilliseconds = (seconds: number | undefined): number => zeroMilliseconds + (seconds ?? 0) * 1000;
    return { flightId: opened.flight.id, fromMilliseconds: atMilliseconds(track.atSeconds[0]), toMilliseconds: atMilliseconds(track.atSeconds.at(-1)) };
  });
  const flightSpans = computed((): readonly FlightSpan[] =>
    flights.value.kind !== 'ready'
      ? []
      : flights.value.flights.map(({ id, startedAtMilliseconds, endedAtMilliseconds }) => ({
          flightId: id,
          fromMilliseconds: startedAtMilliseconds,
          toMilliseconds: endedAtMilliseconds ?? Infinity,
        })),
  );
  const flightOf = ({ track: { points } }: ImportedTrack): string | null => {
    const [first, last] = [points[0], points.at(-1)];
    if (first === undefined || last === undefined) return null;
    return flightOfTrack({ fromMilliseconds: first.timeMilliseconds, toMilliseconds: last.timeMilliseconds }, openSpan.value, flightSpans.value);
  };
  const ownsTrack = (flightId: string | null): boolean => flightId === null || openSpan.value === null || flightId === openSpan.value.flightId;
  const trackFlights = computed((): ReadonlyMap<string, string | null> => new Map(tracks.value.map((imported) => [imported.id, flightOf(imported)])));
  const ownShip = computed((): DeskShip | null => {
    const opened = state.value;
    if (opened.kind !== 'open' || own.value === null) return null;
    const { log, replayed } = own.value;
    const debrief = replayed === null ? null : debriefShip(log, replayed, ownSeen.value);
    return { key: opened.flight.id, name: log.setup.shipName, kind: 'flight', log, seen: ownSeen.value, debrief };
  });
  const judgeTrack = createTrackJudge();
  const ships = computed((): readonly DeskShip[] => {
    const others = tracks.value
      .filter(({ id }) => ownsTrack(trackFlights.value.get(id) ?? null))
      .map((imported): DeskShip => {
        const { log, debrief } = judgeTrack(imported, job.value, planned.value?.plan ?? null);
        return { key: imported.id, name: imported.track.name, kind: 'track', log, seen: imported.seen, debrief };
      });
    // Judged while the flight is read, shown with it: pictures of the tracks alone would stand for a moment only.
    if (state.value.kind === 'opening') return [];
    return ownShip.value === null ? others : [ownShip.value, ...others];
  });
  return { ownShip, ships, trackFlights, flightOf, ownsTrack };
}
