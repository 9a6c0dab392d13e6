import { cleanName } from '../../core/text/clean-name.ts';
import type { GeodeticPoint } from '../../core/earth/site-frame.ts';
import type { Database } from '../../store/database.ts';
import { readPhotographFile } from '../../workers/photograph-client.ts';
import type { PointingWatch } from './pointing-watch.ts';
import { base64Of, type Photograph, savePhotograph } from './photograph-shelf.ts';

/** What became of chosen files: those kept, and a line for each that was not. */
export interface PhotographsTaken {
  readonly kept: readonly Photograph[];
  readonly refused: readonly string[];
}

/** Who takes pictures on this device. */
export interface PhotographTaker {
  readonly pointedAt: PointingWatch['at'];
  readonly standsAt: GeodeticPoint | null;
}

const MOST_BYTES = 40e6;

/**
 * Keeps chosen pictures with a job, each as it is, with its SHA-256 (FIPS 180-4) and what it says of itself. Never rejects.
 *
 * @param taker where the device pointed at a moment, asked for each picture's own; and where its holder said he stands
 * (null with the crowd), for pictures that do not tell their place
 */
export async function takePhotographs(
  database: Database,
  jobId: string,
  files: readonly File[],
  nowMilliseconds: () => number,
  taker: PhotographTaker = { pointedAt: () => null, standsAt: null },
): Promise<PhotographsTaken> {
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
      const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', await file.arrayBuffer()));
      const sha256 = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('');
      const { data } = read;
      const takenAtMilliseconds = data.takenAtMilliseconds ?? (file.lastModified > 0 ? file.lastModified : nowMilliseconds());
      const photograph: Photograph = {
        id: sha256.slice(0, 16),
        jobId,
        fileName: name,
        type: data.type,
        sha256,
        takenAtMilliseconds,
        timeFrom: data.takenAtMilliseconds === null ? 'arrival' : 'picture',
        focal35Millimetres: data.focal35Millimetres,
        ...takenFrom(data, taker.standsAt),
        pointed: taker.pointedAt(takenAtMilliseconds),
        seen: null,
        base64: await base64Of(file),
      };
      await savePhotograph(database, photograph);
      kept.push(photograph);
    } catch (error) {
      refused.push(`${name}: not stored. ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  return { kept, refused };
}

/** Most pictures that a browser hands over have lost their place on the way. */
function takenFrom(data: Pick<Photograph, 'latitudeDegrees' | 'longitudeDegrees'>, standsAt: GeodeticPoint | null): typeof data {
  const told = data.latitudeDegrees !== null && data.longitudeDegrees !== null ? data : standsAt;
  return { latitudeDegrees: told?.latitudeDegrees ?? null, longitudeDegrees: told?.longitudeDegrees ?? null };
}
