import { deflateSync, Inflate } from 'fflate';

/**
 * A job's file as a row of short texts, each fit for one QR code, so that it passes from a screen to a camera with no
 * network between: `QWJ1:SET:INDEX/COUNT:DATA`, DATA being a piece of the deflated file in base64url (RFC 4648,
 * section 5). SET is the same for all pieces of one file; pieces may be read in any order and more than once.
 */
export interface LinkFrame {
  readonly set: string;
  /** 1-based. */
  readonly index: number;
  readonly count: number;
  readonly data: string;
}

/** Characters of data in a frame: a QR code of version 13 at error level L, which a phone reads off a tablet at once. */
const DATA_CHARACTERS = 400;
const FRAMES_LIMIT = 120;
/** A job file is at most 1 MB; a small code that grows beyond it is a bomb. */
const FILE_LIMIT_BYTES = 1_000_000;

const FRAME = /^QWJ1:([0-9a-z]{1,16}):(\d{1,3})\/(\d{1,3}):([A-Za-z0-9_-]{1,1000})$/;
const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

/**
 * The frames of a file.
 *
 * @param set what tells this file from others, 1 to 16 of `[0-9a-z]`
 * @throws RangeError for a set that is none, or a file that would need more than 120 frames (about 36 kB deflated)
 */
export function framesFromText(fileText: string, set: string): string[] {
  if (!/^[0-9a-z]{1,16}$/.test(set)) throw new RangeError(`set must match [0-9a-z]{1,16}, not ${set}`);
  const data = base64From(deflateSync(utf8From(fileText), { level: 9 }));
  const count = Math.max(1, Math.ceil(data.length / DATA_CHARACTERS));
  if (count > FRAMES_LIMIT) throw new RangeError(`the file needs ${count} frames, more than ${FRAMES_LIMIT}`);
  return Array.from({ length: count }, (_, index) => `QWJ1:${set}:${index + 1}/${count}:${data.slice(index * DATA_CHARACTERS, (index + 1) * DATA_CHARACTERS)}`);
}

/** The frame that a text is, or null for any other text. */
export function frameFromText(text: string): LinkFrame | null {
  const match = FRAME.exec(text);
  if (match === null) return null;
  const [, set = '', index, count, data = ''] = match;
  const frame = { set, index: Number(index), count: Number(count), data };
  return frame.index >= 1 && frame.index <= frame.count && frame.count <= FRAMES_LIMIT ? frame : null;
}

/** Frames read so far, of one set. */
export interface FrameCollection {
  readonly set: string;
  readonly count: number;
  readonly data: ReadonlyMap<number, string>;
}

/** The collection with a frame in it; a frame of another set begins anew. */
export function withFrame(collection: FrameCollection | null, { set, index, count, data }: LinkFrame): FrameCollection {
  if (collection === null || collection.set !== set || collection.count !== count) return { set, count, data: new Map([[index, data]]) };
  return { ...collection, data: new Map(collection.data).set(index, data) };
}

export type FramesReading = { readonly ok: true; readonly value: string } | { readonly ok: false; readonly reason: 'incomplete' | 'damaged' };

/** The file's text, once all its frames are there. Never throws; what grows beyond 1 MB is damaged. */
export function textFromFrames(collection: FrameCollection): FramesReading {
  const pieces = Array.from({ length: collection.count }, (_, index) => collection.data.get(index + 1));
  if (pieces.some((piece) => piece === undefined)) return { ok: false, reason: 'incomplete' };
  const bytes = bytesFrom(pieces.join(''));
  if (bytes === null) return { ok: false, reason: 'damaged' };
  const chunks: Uint8Array[] = [];
  let size = 0;
  let ended = false;
  try {
    const inflate = new Inflate((chunk, final) => {
      size += chunk.length;
      if (size > FILE_LIMIT_BYTES) throw new RangeError('too large');
      chunks.push(chunk);
      ended = final;
    });
    // In small bites, so that a bomb is noticed before it has gone off.
    for (let from = 0; from < bytes.length; from += 256) inflate.push(bytes.subarray(from, from + 256), from + 256 >= bytes.length);
  } catch {
    return { ok: false, reason: 'damaged' };
  }
  const text = ended ? textFromUtf8(chunks, size) : null;
  return text === null ? { ok: false, reason: 'damaged' } : { ok: true, value: text };
}

function base64From(bytes: Uint8Array): string {
  let text = '';
  for (let index = 0; index < bytes.length; index += 3) {
    const [one = 0, two = 0, three = 0] = [bytes[index], bytes[index + 1], bytes[index + 2]];
    const word = (one << 16) | (two << 8) | three;
    const left = Math.min(3, bytes.length - index);
    for (let place = 0; place <= left; place += 1) text += DIGITS[(word >> (18 - 6 * place)) & 63] ?? '';
  }
  return text;
}

function bytesFrom(text: string): Uint8Array | null {
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let word = 0;
  let bits = 0;
  let at = 0;
  for (const digit of text) {
    const value = DIGITS.indexOf(digit);
    if (value < 0) return null;
    word = ((word << 6) | value) & 0xff_ff;
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes[at] = (word >> bits) & 255;
      at += 1;
    }
  }
  return bytes.subarray(0, at);
}

/** Core has no TextEncoder; encodeURIComponent is UTF-8 (ECMA-262, 19.2.6). */
function utf8From(text: string): Uint8Array {
  const written = encodeURIComponent(text);
  const bytes: number[] = [];
  for (let index = 0; index < written.length; index += 1) {
    if (written[index] === '%') {
      bytes.push(Number.parseInt(written.slice(index + 1, index + 3), 16));
      index += 2;
    } else bytes.push(written.charCodeAt(index));
  }
  return Uint8Array.from(bytes);
}

function textFromUtf8(chunks: readonly Uint8Array[], size: number): string | null {
  const written: string[] = [];
  for (const chunk of chunks) for (const byte of chunk) written.push(`%${byte.toString(16).padStart(2, '0')}`);
  if (written.length !== size) return null;
  try {
    return decodeURIComponent(written.join(''));
  } catch {
    return null;
  }
}
