import { expect, it } from 'vitest';
import { writeWebm } from '../../../src/core/tracks/webm-write.ts';

/** Elements of a file by a reader of its own: id, and where its contents lie (RFC 8794, 4 and 5). */
function elements(bytes: Uint8Array, from: number, to: number): { readonly id: string; readonly from: number; readonly to: number }[] {
  const found: { id: string; from: number; to: number }[] = [];
  for (let at = from; at < to;) {
    const idLength = Math.clz32(bytes[at]!) - 23;
    const id = [...bytes.subarray(at, at + idLength)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    const sizeAt = at + idLength;
    const sizeLength = Math.clz32(bytes[sizeAt]!) - 23;
    let size = bytes[sizeAt]! & (0xff >> sizeLength);
    for (let index = 1; index < sizeLength; index += 1) size = size * 256 + bytes[sizeAt + index]!;
    found.push({ id, from: sizeAt + sizeLength, to: sizeAt + sizeLength + size });
    at = sizeAt + sizeLength + size;
  }
  return found;
}

const frame = (atMilliseconds: number, key: boolean): { atMilliseconds: number; key: boolean; bytes: Uint8Array } => ({
  atMilliseconds,
  key,
  bytes: Uint8Array.of(1, 2, 3),
});
const TRACK = { codec: 'V_VP8', widthPixels: 1280, heightPixels: 720, durationMilliseconds: 4000 } as const;

it('lays elements inside each other as Matroska has them, a cluster for each key picture', () => {
  const file = writeWebm([frame(0, true), frame(40, false), frame(2000, true), frame(2040, false), frame(2080, false)], TRACK);
  const [head, segment, ...more] = elements(file, 0, file.length);
  expect(more).toEqual([]);
  expect([head?.id, segment?.id]).toEqual(['1a45dfa3', '18538067']);
  expect(new TextDecoder().decode(file.subarray(head!.from, head!.to))).toContain('webm');
  const inside = elements(file, segment!.from, segment!.to);
  expect(inside.map(({ id }) => id)).toEqual(['1549a966', '1654ae6b', '1f43b675', '1f43b675']);
  const blocks = inside.slice(2).map(({ from, to }) => elements(file, from, to));
  expect(blocks.map((cluster) => cluster.map(({ id }) => id))).toEqual([
    ['e7', 'a3', 'a3'],
    ['e7', 'a3', 'a3', 'a3'],
  ]);
  // Track 1, two bytes of time since the cluster's, the flag of a key, then the picture.
  const last = blocks[1]![3]!;
  expect([...file.subarray(last.from, last.to)]).toEqual([0x81, 0, 80, 0, 1, 2, 3]);
  expect(file[blocks[1]![1]!.from + 3]).toBe(0x80);
});

it('takes no film that cannot be played from its beginning', () => {
  expect(() => writeWebm([], TRACK)).toThrow(RangeError);
  expect(() => writeWebm([frame(0, false)], TRACK)).toThrow(RangeError);
  expect(() => writeWebm([frame(40, true), frame(0, true)], TRACK)).toThrow(RangeError);
});
