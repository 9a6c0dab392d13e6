import type { Database } from '../../store/database.ts';
import { addObserverEntries } from '../../store/observer-logs.ts';
import type { DeskShips } from './desk-ships.ts';
import { type DeskSignals, sayFailed } from './desk-signals.ts';
import type { DebriefDesk } from './desk-types.ts';
import { type ImportedTrack, saveImportedTracks } from './imported-tracks.ts';
import { importedLogWords, readChosenFiles } from './read-chosen-files.ts';
import { saveSeenMarks } from './seen-marks.ts';

/** What is done with imported tracks and with smoke marked by hand. */
export type DeskTracks = Pick<DebriefDesk, 'importTracks' | 'assignTrack' | 'removeTrack' | 'markSeen'>;

/** Each change is stored before it is shown, and can be undone. */
export function createDeskTracks(
  { database, jobId }: { readonly database: Database; readonly jobId: string },
  signals: DeskSignals,
  { flightOf, ownsTrack }: DeskShips,
  { open, refresh }: Pick<DebriefDesk, 'open' | 'refresh'>,
): DeskTracks {
  const { tracks, ownSeen, done, notice } = signals;

  async function putTracks(next: readonly ImportedTrack[], words: string | null): Promise<void> {
    const before = tracks.peek();
    try {
      await saveImportedTracks(database, jobId, next);
      tracks.value = next;
      if (words !== null) done.value = { words, undo: () => putTracks(before, null).then(() => void (done.value = null)) };
    } catch (error) {
      sayFailed(signals, 'The tracks were not stored; nothing was changed', error);
    }
  }

  return {
    async importTracks(chosen) {
      const read = await readChosenFiles(jobId, chosen);
      if (!read.ok) {
        notice.value = { kind: 'refused', lines: read.reasons };
        return;
      }
      if (read.logs.length > 0) {
        try {
          for (const log of read.logs) await addObserverEntries(database, log);
        } catch (error) {
          return sayFailed(signals, 'The observer\u2019s log was not stored', error);
        }
        await refresh();
        notice.value = { kind: 'imported', lines: read.logs.map(importedLogWords) };
      }
      const count = read.tracks.length;
      if (count === 0) return;
      // What was flown in another flight is looked at there.
      const flightIds = new Set(read.tracks.map(flightOf));
      const [flightId] = flightIds;
      const elsewhere = flightIds.size === 1 && flightId != null && !ownsTrack(flightId);
      if (elsewhere) await open(flightId);
      const words = `${count === 1 ? 'A track was' : `${count} tracks were`} imported`;
      await putTracks([...tracks.peek(), ...read.tracks], elsewhere ? `${words}; the flight of that hour is open now.` : `${words}.`);
      if (read.warnings.length > 0) notice.value = { kind: 'imported', lines: read.warnings };
    },
    assignTrack: (trackId, shipIndex) =>
      putTracks(
        tracks.peek().map((track) => (track.id === trackId ? { ...track, shipIndex } : track)),
        null,
      ),
    removeTrack(trackId) {
      const gone = tracks.peek().find(({ id }) => id === trackId);
      return putTracks(
        tracks.peek().filter((track) => track !== gone),
        `${gone?.track.name ?? 'The track'} was removed.`,
      );
    },
    async markSeen(shipKey, seen, words) {
      const sorted = seen.toSorted((one, other) => one.onSeconds - other.onSeconds);
      const imported = tracks.peek().find(({ id }) => id === shipKey);
      if (imported !== undefined) {
        await putTracks(
          tracks.peek().map((track) => (track === imported ? { ...track, seen: sorted } : track)),
          words,
        );
        return;
      }
      const before = ownSeen.peek();
      try {
        await saveSeenMarks(database, shipKey, sorted);
        ownSeen.value = sorted;
        done.value = {
          words,
          async undo() {
            await saveSeenMarks(database, shipKey, before).catch((error: unknown) => sayFailed(signals, 'The marks were not stored', error));
            ownSeen.value = before;
            done.value = null;
          },
        };
      } catch (error) {
        sayFailed(signals, 'The mark was not stored', error);
      }
    },
  };
}
