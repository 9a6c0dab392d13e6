import { fnv1a } from '../row-checksum.ts';

/** One part of a backup, on one line of its file. `rows` holds up to a thousand rows of one log. */
export interface BackupEntry {
  readonly part: BackupPart;
  /** The id of the job or flight, the log the rows are of, the setting. */
  readonly key: string;
  readonly value: unknown;
}

const PARTS = ['job', 'rows', 'flight', 'setting'] as const;
export type BackupPart = (typeof PARTS)[number];

/** A line of a backup as it was read. */
export type BackupLine =
  | { readonly kind: 'entry'; readonly entry: BackupEntry }
  /** The last line, with how many parts came before it. */
  | { readonly kind: 'end'; readonly parts: number }
  /** Changed or cut; with as much of a name as is left. */
  | { readonly kind: 'damaged'; readonly name: string };

const FORMAT = 'quillwind-backup';

/** The first line: what the file is. */
export function headLine(madeMilliseconds: number): string {
  return JSON.stringify({ format: FORMAT, version: 1, made: new Date(madeMilliseconds).toISOString() });
}

/** Whether a file's first line says that it is a backup this app can read; else why not, in words. */
export function headFault(line: string): string | null {
  try {
    const head: unknown = JSON.parse(line.replace(/^\uFEFF/, ''));
    if (typeof head !== 'object' || head === null || !('format' in head) || head.format !== FORMAT) return 'This is not a backup.';
    return 'version' in head && head.version === 1 ? null : 'This backup was made by a newer Quillwind: update this one, then restore it.';
  } catch {
    return 'This is not a backup.';
  }
}

/** The last line: without it the file was cut. */
export const endLine = (parts: number): string => JSON.stringify({ end: parts });

/**
 * A part as its line, with a checksum. Long values are packed each by itself, so that a damaged byte costs one part; bytes
 * are written in base64.
 */
export async function lineFromEntry({ part, key, value }: BackupEntry): Promise<string> {
  const text = JSON.stringify(value, withBytes);
  const packed = text.length > PACKED_FROM_CHARACTERS && typeof CompressionStream !== 'undefined' ? await pack(text) : null;
  const body = `[${JSON.stringify(part)},${JSON.stringify(key)},${packed === null ? text : JSON.stringify({ $packed: packed })}]`;
  return `${body.slice(0, -1)},${fnv1a(body)}]`;
}

/** The part of a line; the inverse of {@link lineFromEntry}. */
export async function readLine(line: string): Promise<BackupLine> {
  const at = line.lastIndexOf(',');
  const sum = Number(line.slice(at + 1, -1));
  try {
    if (line.startsWith('{')) {
      const { end } = JSON.parse(line) as { readonly end?: unknown };
      return typeof end === 'number' ? { kind: 'end', parts: end } : { kind: 'damaged', name: 'a part without a name' };
    }
    const body = `${line.slice(0, at)}]`;
    if (fnv1a(body) === sum) {
      const [part, key, value] = JSON.parse(body, fromBytes) as readonly [unknown, unknown, unknown];
      if (isPart(part) && typeof key === 'string') return { kind: 'entry', entry: { part, key, value: await unpacked(value) } };
    }
  } catch {
    // Named below.
  }
  return { kind: 'damaged', name: nameLeft(line) };
}

function isPart(part: unknown): part is BackupPart {
  return (PARTS as readonly unknown[]).includes(part);
}

const WORDS: Readonly<Record<string, string>> = { job: 'job', rows: 'part of the log', flight: 'flight', setting: 'setting' };

/** What a broken line still says of itself. */
function nameLeft(line: string): string {
  const [, part = '', key = ''] = /^\["([a-z]+)","([^"]{0,80})/.exec(line) ?? [];
  const name = /"name\\?":\s*\\?"([^"\\]{1,60})/.exec(line.slice(0, 20_000))?.[1];
  const words = WORDS[part];
  return words === undefined ? 'a part without a name' : `${words} ${name ?? key}`;
}

const PACKED_FROM_CHARACTERS = 2000;
/** More than any part holds: a line that unpacks to more was made to do harm. */
const UNPACKED_LIMIT_BYTES = 100_000_000;
const CHUNK = 0x80_00;

async function pack(text: string): Promise<string> {
  return base64(new Uint8Array(await new Response(new Blob([text]).stream().pipeThrough(new CompressionStream('gzip'))).arrayBuffer()));
}

async function unpacked(value: unknown): Promise<unknown> {
  if (typeof value !== 'object' || value === null || !('$packed' in value) || typeof value.$packed !== 'string') return value;
  const reader = new Blob([fromBase64(value.$packed)]).stream().pipeThrough(new DecompressionStream('gzip')).getReader();
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  for (;;) {
    const next = await reader.read();
    if (next.done) break;
    pieces.push(next.value);
    length += next.value.length;
    if (length > UNPACKED_LIMIT_BYTES) throw new RangeError('too long');
  }
  return JSON.parse(await new Blob(pieces).text(), fromBytes) as unknown;
}

function base64(bytes: Uint8Array): string {
  let binary = '';
  for (let at = 0; at < bytes.length; at += CHUNK) binary += String.fromCharCode(...bytes.subarray(at, at + CHUNK));
  return btoa(binary);
}

function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const binary = atob(text);
  // By index: an iterated string would be a list of millions of characters first.
  const bytes = new Uint8Array(binary.length);
  for (let index = 0; index < binary.length; index += 1) bytes[index] = binary.charCodeAt(index);
  return bytes;
}

function withBytes(_key: string, value: unknown): unknown {
  return value instanceof Uint8Array ? { $bytes: base64(value) } : value;
}

function fromBytes(_key: string, value: unknown): unknown {
  if (typeof value !== 'object' || value === null || !('$bytes' in value) || typeof value.$bytes !== 'string') return value;
  return fromBase64(value.$bytes);
}
