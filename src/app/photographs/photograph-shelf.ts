import type { PhotographedLetter } from '../../core/debrief/photographed-letter.ts';
import type { Database } from '../../store/database.ts';
import type { Pointed } from '../../core/photograph/pose-prior.ts';

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
  /** Where the device's back pointed at the moment; null where it was not asked. */
  readonly pointed: Pointed | null;
  /** What the word laid over it showed, letter by letter; null until it was laid. */
  readonly seen: readonly PhotographedLetter[] | null;
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

/** The one that was made last: the same picture is shown, and then laid under the word. */
let made: { readonly sha256: string; readonly picture: Blob } | null = null;

/** The picture itself again, byte for byte. */
export function pictureOf({ sha256, base64, type }: Photograph): Blob {
  if (made?.sha256 === sha256 && made.picture.type === type) return made.picture;
  const binary = atob(base64);
  // By index: as an iterated string a large picture would hold up the page.
  const bytes = new Uint8Array(binary.length);
  for (let index = 0; index < binary.length; index += 1) bytes[index] = binary.charCodeAt(index);
  made = { sha256, picture: new Blob([bytes], { type }) };
  return made.picture;
}

/** A file's bytes in base 64, written by the browser beside the page. Rejects with an Error where it cannot be read. */
export function base64Of(file: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => {
      const written = typeof reader.result === 'string' ? reader.result : '';
      resolve(written.slice(written.indexOf(',') + 1));
    };
    reader.onerror = () => reject(new Error('The file could not be read.'));
    reader.readAsDataURL(file);
  });
}

function photographFrom(value: unknown): Photograph | null {
  if (typeof value !== 'object' || value === null) return null;
  const { id, jobId, fileName, type, sha256, takenAtMilliseconds, timeFrom, focal35Millimetres, latitudeDegrees, longitudeDegrees, pointed, seen, base64 } =
    value as Partial<Record<keyof Photograph, unknown>>;
  const texts = [id, jobId, fileName, type, sha256, base64];
  if (!texts.every((text) => typeof text === 'string') || typeof takenAtMilliseconds !== 'number') return null;
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
    pointed: pointedFrom(pointed),
    seen: Array.isArray(seen) ? seen.flatMap((letter: unknown) => seenFrom(letter) ?? []) : null,
    base64: String(base64),
  };
}

const number = (given: unknown): number | null => (typeof given === 'number' && Number.isFinite(given) ? given : null);

function pointedFrom(value: unknown): Pointed | null {
  const { bearingDegreesTrue, tiltDegrees } = typeof value === 'object' && value !== null ? (value as Partial<Record<keyof Pointed, unknown>>) : {};
  const [bearing, tilt] = [number(bearingDegreesTrue), number(tiltDegrees)];
  return bearing === null || tilt === null ? null : { bearingDegreesTrue: bearing, tiltDegrees: tilt };
}

function seenFrom(value: unknown): PhotographedLetter | null {
  const read = typeof value === 'object' && value !== null ? (value as Partial<Record<keyof PhotographedLetter, unknown>>) : {};
  const [letterIndex, foundShare] = [number(read.letterIndex), number(read.foundShare)];
  return letterIndex === null || foundShare === null ? null : { letterIndex, foundShare, offHeights: number(read.offHeights) };
}
