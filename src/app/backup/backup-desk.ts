import { type ReadonlySignal, signal } from '@preact/signals';
import { backupStream, readBackup } from '../../store/backup/backup-stream.ts';
import type { BackupEntry } from '../../store/backup/backup-line.ts';
import { countEverything, readEverything } from '../../store/backup/read-everything.ts';
import { restorePart, type Restored } from '../../store/backup/restore-part.ts';
import type { Database } from '../../store/database.ts';
import { readFlights } from '../../store/flights.ts';
import { readSetting, saveSetting } from '../../store/settings.ts';
import { storeFaultFrom } from '../../store/store-fault.ts';
import { handOverFile } from '../hand-over-file.ts';
import { createKeptFolder, type KeptFolder } from './kept-folder.ts';

/** What became of a restored file, by part. */
export interface RestoreReport {
  readonly added: number;
  readonly there: number;
  /** Put beside what is here, under a new name. */
  readonly copied: readonly string[];
  /** Different here: left as it is. */
  readonly keptHere: readonly string[];
  /** Damaged or refused, by name and why. */
  readonly refused: readonly string[];
}

export type BackupState =
  | { readonly kind: 'idle' }
  | { readonly kind: 'making' | 'restoring'; readonly share: number }
  | { readonly kind: 'made'; readonly where: string }
  | { readonly kind: 'restored'; readonly report: RestoreReport }
  | { readonly kind: 'failed'; readonly reason: string };

/** Everything in one file, and back. */
export interface BackupDesk {
  readonly state: ReadonlySignal<BackupState>;
  /** Flights that ended since the last backup of this device; null until that is known. */
  readonly due: ReadonlySignal<number | null>;
  readonly folder: KeptFolder;
  /** Makes a backup and hands it over, or writes it into the kept folder. */
  make(): Promise<void>;
  /** Puts a backup beside what is here: overwrites nothing. */
  restore(file: Blob): Promise<void>;
  dismiss(): void;
}

const MADE = 'backup-made';
export const BACKUP_ENDING = 'quillwind';
const BACKUP_TYPE = 'application/x-quillwind';

/** `changed` is called after something was restored. */
export function createBackupDesk(database: Database, nowMilliseconds: () => number, changed: () => Promise<void>): BackupDesk {
  const state = signal<BackupState>({ kind: 'idle' });
  const due = signal<number | null>(null);
  const folder = createKeptFolder(database);

  async function findDue(): Promise<void> {
    const [{ flights }, made] = await Promise.all([readFlights(database), readSetting(database, MADE)]);
    const since = typeof made === 'number' ? made : 0;
    due.value = flights.filter(({ kind, endedAtMilliseconds }) => kind === 'flight' && endedAtMilliseconds !== null && endedAtMilliseconds > since).length;
  }

  async function* counted(total: number): AsyncGenerator<BackupEntry> {
    let told = 0;
    for await (const entry of readEverything(database)) {
      told += entry.part === 'rows' && Array.isArray(entry.value) ? entry.value.length : 1;
      state.value = { kind: 'making', share: Math.min(1, told / total) };
      yield entry;
    }
  }

  async function attempt(action: () => Promise<void>): Promise<void> {
    if (state.peek().kind === 'making' || state.peek().kind === 'restoring') return;
    try {
      await action();
    } catch (error) {
      state.value = { kind: 'failed', reason: error instanceof DOMException ? error.message : storeFaultFrom(error).message };
    }
  }

  const make = (): Promise<void> =>
    attempt(async () => {
      state.value = { kind: 'making', share: 0 };
      const startedMilliseconds = nowMilliseconds();
      const { jobs, flights, rows, settings } = await countEverything(database);
      const stream = backupStream(counted(Math.max(1, jobs + flights + rows + settings)), startedMilliseconds);
      const name = `quillwind-backup-${new Date(startedMilliseconds).toISOString().slice(0, 10)}.${BACKUP_ENDING}`;
      const where = await folder.write(name, stream);
      if (where === null) {
        const given = await handOverFile({ name, type: BACKUP_TYPE, content: await new Response(stream).blob() });
        if (!given) {
          state.value = { kind: 'idle' };
          return;
        }
      }
      await saveSetting(database, MADE, startedMilliseconds);
      state.value = { kind: 'made', where: where ?? name };
      await findDue();
    });

  const started = (async () => {
    await findDue();
    await folder.ready;
    // A folder that was allowed is written to by itself, once for each flight.
    if ((due.peek() ?? 0) > 0 && folder.state.peek().kind === 'allowed') await make();
  })();
  started.catch(() => {});

  return {
    state,
    due,
    folder,
    make,
    restore: (file) =>
      attempt(async () => {
        state.value = { kind: 'restoring', share: 0 };
        const report = { added: 0, there: 0, copied: [] as string[], keptHere: [] as string[], refused: [] as string[] };
        let readBytes = 0;
        for await (const read of readBackup(watched(file, (bytes) => (readBytes += bytes)))) {
          state.value = { kind: 'restoring', share: file.size === 0 ? 1 : Math.min(1, readBytes / file.size) };
          if (read.kind === 'entry') note(report, await restorePart(database, read.entry, nowMilliseconds()));
          else if (read.kind === 'damaged') report.refused.push(`${read.name}: damaged`);
          else if (read.kind === 'fault') report.refused.push(read.reason);
        }
        await changed();
        state.value = { kind: 'restored', report };
      }),
    dismiss() {
      state.value = { kind: 'idle' };
    },
  };
}

function note(report: { added: number; there: number; copied: string[]; keptHere: string[]; refused: string[] }, restored: Restored): void {
  switch (restored.kind) {
    case 'added':
      report.added += 1;
      return;
    case 'there':
      report.there += 1;
      return;
    case 'copied':
      report.copied.push(restored.name);
      return;
    case 'kept-here':
      report.keptHere.push(restored.name);
      return;
    case 'refused':
      report.refused.push(`${restored.name}: ${restored.reason}`);
  }
}

/** A file that tells how much of it has been read. */
function watched(file: Blob, onBytes: (bytes: number) => void): Pick<Blob, 'stream'> {
  return {
    stream: () =>
      file.stream().pipeThrough(
        new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>({
          transform(chunk, controller) {
            onBytes(chunk.length);
            controller.enqueue(chunk);
          },
        }),
      ),
  };
}
