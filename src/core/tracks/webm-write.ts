/** One packed picture of a film. */
export interface FilmFrame {
  readonly atMilliseconds: number;
  /** It needs none before it. */
  readonly key: boolean;
  readonly bytes: Uint8Array;
}

export interface FilmTrack {
  readonly codec: 'V_VP8' | 'V_VP9';
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly durationMilliseconds: number;
}

const ASCII = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

/** An element: its id as it stands (RFC 8794), its size in eight bytes, what it holds. */
function element(id: readonly number[], ...contents: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const size = contents.reduce((sum, each) => sum + each.length, 0);
  const bytes = new Uint8Array(id.length + 8 + size);
  bytes.set(id);
  const view = new DataView(bytes.buffer);
  // The first byte's lowest bit set says that seven bytes of size follow.
  view.setUint32(id.length, 0x01_00_00_00 + Math.floor(size / 2 ** 32));
  view.setUint32(id.length + 4, size % 2 ** 32);
  let at = id.length + 8;
  for (const content of contents) {
    bytes.set(content, at);
    at += content.length;
  }
  return bytes;
}

function unsigned(value: number): Uint8Array {
  const bytes = new Uint8Array(6);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, Math.floor(value / 2 ** 32));
  view.setUint32(2, value % 2 ** 32);
  return bytes;
}

function float(value: number): Uint8Array {
  const bytes = new Uint8Array(8);
  new DataView(bytes.buffer).setFloat64(0, value);
  return bytes;
}

/** A cluster's times count from its own, in two bytes. */
const LONGEST_CLUSTER_MILLISECONDS = 30_000;

/**
 * A WebM file (Matroska, RFC 9559, document type webm) of one track of pictures packed as VP8 or VP9, in their order. A new
 * cluster begins with each picture that needs none before it.
 *
 * @throws RangeError where the first picture is no key, or times run backward
 */
export function writeWebm(frames: readonly FilmFrame[], { codec, widthPixels, heightPixels, durationMilliseconds }: FilmTrack): Uint8Array<ArrayBuffer> {
  if (frames[0]?.key !== true) throw new RangeError('a film begins with a picture that needs none before it');
  const clusters: { readonly fromMilliseconds: number; readonly frames: FilmFrame[] }[] = [];
  let before = -Infinity;
  for (const frame of frames) {
    if (!(frame.atMilliseconds >= before)) throw new RangeError(`a picture at ${frame.atMilliseconds} ms stands after one at ${before}`);
    before = frame.atMilliseconds;
    const now = clusters.at(-1);
    if (now === undefined || frame.key || frame.atMilliseconds - now.fromMilliseconds > LONGEST_CLUSTER_MILLISECONDS)
      clusters.push({ fromMilliseconds: frame.atMilliseconds, frames: [frame] });
    else now.frames.push(frame);
  }
  const head = element(
    [0x1a, 0x45, 0xdf, 0xa3],
    element([0x42, 0x86], unsigned(1)),
    element([0x42, 0xf7], unsigned(1)),
    element([0x42, 0xf2], unsigned(4)),
    element([0x42, 0xf3], unsigned(8)),
    element([0x42, 0x82], ASCII('webm')),
    element([0x42, 0x87], unsigned(4)),
    element([0x42, 0x85], unsigned(2)),
  );
  const info = element(
    [0x15, 0x49, 0xa9, 0x66],
    element([0x2a, 0xd7, 0xb1], unsigned(1_000_000)),
    element([0x44, 0x89], float(durationMilliseconds)),
    element([0x4d, 0x80], ASCII('Quillwind')),
    element([0x57, 0x41], ASCII('Quillwind')),
  );
  const track = element(
    [0xae],
    element([0xd7], unsigned(1)),
    element([0x73, 0xc5], unsigned(1)),
    element([0x9c], unsigned(0)),
    element([0x83], unsigned(1)),
    element([0x86], ASCII(codec)),
    element([0xe0], element([0xb0], unsigned(widthPixels)), element([0xba], unsigned(heightPixels))),
  );
  const segment = element(
    [0x18, 0x53, 0x80, 0x67],
    info,
    element([0x16, 0x54, 0xae, 0x6b], track),
    ...clusters.map(({ fromMilliseconds, frames: held }) =>
      element([0x1f, 0x43, 0xb6, 0x75], element([0xe7], unsigned(Math.round(fromMilliseconds))), ...held.map((frame) => block(frame, fromMilliseconds))),
    ),
  );
  const file = new Uint8Array(head.length + segment.length);
  file.set(head);
  file.set(segment, head.length);
  return file;
}

function block({ atMilliseconds, key, bytes }: FilmFrame, fromMilliseconds: number): Uint8Array<ArrayBuffer> {
  const head = new Uint8Array(4);
  head[0] = 0x81;
  new DataView(head.buffer).setInt16(1, Math.round(atMilliseconds - fromMilliseconds));
  head[3] = key ? 0x80 : 0;
  return element([0xa3], head, bytes);
}
