import type { Database } from '../../store/database.ts';

/** A photograph kept with a job: its bytes as they came, and what is known of it. */
export interface Photograph {
  readonly id: string;
  readonly jobId: string;
  readonly fileName: string;
  readonly type: string;
  /** Of the bytes, as 64 hexadecimal digits. */
  readonly sha256: string;
  readonly takenAtMilliseconds: number;
  /** Where the time is from: the picture's own data, the moment it came in, or a person. */
  readonly timeFrom: 'picture' | 'arrival' | 'person';
  readonly focal35Millimetres: number | null;
  readonly latitudeDegrees: number | null;
  readonly longitudeDegrees: number | null;
  /** The bytes in base 64, so that a backup can hold them as text. */
  readonly base64: string;
}

const keyOf = (jobId: string, id: string): string => `photograph/${jobId}/${id}`;

/** A job's photographs, earliest first; what cannot be read is counted. Rejects with a `StoreFault`. */
export async function readPhotographs(database: Database, jobId: string): Promise<{ readonly photographs: readonly Photograph[]; readonly damaged: number }> {
  const range = IDBKeyRange.bound(keyOf(jobId, ''), keyOf(jobId, '\uffff'));
  const values = (await database.transact(['settings'], 'readonly', (transaction) => transaction.objectStore('settings').getAll(range))) as unknown[];
  const photographs = values.flatMap((value) => photographFrom(value) ?? []);
  return {
    photographs: photographs.toSorted((one, other) => one.takenAtMilliseconds - other.takenAtMilliseconds),
    damaged: values.length - photographs.length,
  };
}

/** Keeps a photograph, in place of one of the same bytes. Rejects with a `StoreFault`. */
export async function savePhotograph(database: Database, photograph: Photograph): Promise<void> {
  await database.transact(['settings'], 'readwrite', (transaction) =>
    transaction.objectStore('settings').put({ ...photograph }, keyOf(photograph.jobId, photograph.id)),
  );
}

/** Rejects with a `StoreFault`. */
export async function removePhotograph(database: Database, { jobId, id }: Photograph): Promise<void> {
  await database.transact(['settings'], 'readwrite', (transaction) => transaction.objectStore('settings').delete(keyOf(jobId, id)));
}

/** The picture itself again, byte for byte. */
export function pictureOf({ base64, type }: Photograph): Blob {
  const binary = atob(base64);
  return new Blob([Uint8Array.from(binary, (character) => character.charCodeAt(0))], { type });
}

/** Bytes in base 64, a part at a time: one call with all of them would overflow the stack. */
export function base64From(bytes: Uint8Array): string {
  let binary = '';
  for (let at = 0; at < bytes.length; at += 0x8000) binary += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(binary);
}

function photographFrom(value: unknown): Photograph | null {
  if (typeof value !== 'object' || value === null) return null;
  const { id, jobId, fileName, type, sha256, takenAtMilliseconds, timeFrom, focal35Millimetres, latitudeDegrees, longitudeDegrees, base64 } = value as Partial<
    Record<keyof Photograph, unknown>
  >;
  const texts = [id, jobId, fileName, type, sha256, base64];
  if (!texts.every((text) => typeof text === 'string') || typeof takenAtMilliseconds !== 'number') return null;
  const number = (given: unknown): number | null => (typeof given === 'number' && Number.isFinite(given) ? given : null);
  return {
    id: String(id),
    jobId: String(jobId),
    fileName: String(fileName),
    type: String(type),
    sha256: String(sha256),
    takenAtMilliseconds,
    timeFrom: timeFrom === 'picture' || timeFrom === 'person' ? timeFrom : 'arrival',
    focal35Millimetres: number(focal35Millimetres),
    latitudeDegrees: number(latitudeDegrees),
    longitudeDegrees: number(longitudeDegrees),
    base64: String(base64),
  };
}
