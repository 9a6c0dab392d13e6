import { cleanName } from '../../core/text/clean-name.ts';
import type { Database } from '../../store/database.ts';
import { readPhotographFile } from '../../workers/photograph-client.ts';
import { base64From, type Photograph, savePhotograph } from './photograph-shelf.ts';

/** What became of chosen files: those kept, and a line for each that was not. */
export interface PhotographsTaken {
  readonly kept: readonly Photograph[];
  readonly refused: readonly string[];
}

const MOST_BYTES = 40e6;

/** Keeps chosen pictures with a job, each as it is, with its SHA-256 (FIPS 180-4) and what it says of itself. Never rejects. */
export async function takePhotographs(database: Database, jobId: string, files: readonly File[], nowMilliseconds: () => number): Promise<PhotographsTaken> {
  const kept: Photograph[] = [];
  const refused: string[] = [];
  for (const file of files) {
    const name = cleanName(file.name) === '' ? 'Photograph' : cleanName(file.name);
    if (file.size > MOST_BYTES) {
      refused.push(`${name}: ${Math.round(file.size / 1e6)} MB; photographs of up to ${MOST_BYTES / 1e6} MB are kept.`);
      continue;
    }
    const read = await readPhotographFile(file);
    if (!read.ok) {
      refused.push(`${name}: ${read.reason}`);
      continue;
    }
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
      const sha256 = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
      const { data } = read;
      const photograph: Photograph = {
        id: sha256.slice(0, 16),
        jobId,
        fileName: name,
        type: data.type,
        sha256,
        takenAtMilliseconds: data.takenAtMilliseconds ?? (file.lastModified > 0 ? file.lastModified : nowMilliseconds()),
        timeFrom: data.takenAtMilliseconds === null ? 'arrival' : 'picture',
        focal35Millimetres: data.focal35Millimetres,
        latitudeDegrees: data.latitudeDegrees,
        longitudeDegrees: data.longitudeDegrees,
        base64: base64From(bytes),
      };
      await savePhotograph(database, photograph);
      kept.push(photograph);
    } catch (error) {
      refused.push(`${name}: not stored. ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  return { kept, refused };
}
