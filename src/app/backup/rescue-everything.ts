import { backupStream } from '../../store/backup/backup-stream.ts';
import { readEverything } from '../../store/backup/read-everything.ts';
import { createDatabase } from '../../store/database.ts';
import { handOverFile } from '../hand-over-file.ts';
import { BACKUP_ENDING } from './backup-desk.ts';

/**
 * Hands over a backup of what a newer version of the app stored, as far as this version knows it; reads alone. True when it
 * was handed over. Rejects with a `StoreFault`.
 */
export async function rescueEverything(nowMilliseconds: number): Promise<boolean> {
  const database = createDatabase({ readsAnyVersion: true });
  try {
    const content = await new Response(backupStream(readEverything(database), nowMilliseconds)).blob();
    const name = `quillwind-backup-${new Date(nowMilliseconds).toISOString().slice(0, 10)}.${BACKUP_ENDING}`;
    return await handOverFile({ name, type: 'application/x-quillwind', content });
  } finally {
    database.close();
  }
}
