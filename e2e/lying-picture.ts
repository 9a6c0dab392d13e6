/** What a picture may claim of itself (Exif 2.32, CIPA DC-008; TIFF 6.0). */
export interface Claims {
  readonly taken: string;
  readonly offset: string;
  readonly focal35Millimetres: number;
  /** Degrees, and to which side. */
  readonly latitude: readonly [degrees: number, side: 'N' | 'S'];
  readonly longitude: readonly [degrees: number, side: 'E' | 'W'];
}

/** A JPEG with another's words about itself put behind its first bytes. */
export function withClaims(jpeg: Buffer, { taken, offset, focal35Millimetres, latitude, longitude }: Claims): Buffer {
  const ascii = (text: string): Buffer => Buffer.from(`${text}\0`, 'latin1');
  const rational = (degrees: number): Buffer => words(degrees, 1, 0, 1, 0, 1);
  const short = (value: number): Buffer => Buffer.from([value >> 8, value & 255, 0, 0]);
  const exif = (at: number): Buffer =>
    directory(at, [
      [0x9003, 2, ascii(taken)],
      [0x9011, 2, ascii(offset)],
      [0xa405, 3, short(focal35Millimetres)],
    ]);
  const gps = (at: number): Buffer =>
    directory(at, [
      [1, 2, ascii(latitude[1])],
      [2, 5, rational(latitude[0])],
      [3, 2, ascii(longitude[1])],
      [4, 5, rational(longitude[0])],
    ]);
  const first = 8;
  const exifAt = first + 2 + 2 * 12 + 4;
  const gpsAt = exifAt + exif(exifAt).length;
  const head = directory(first, [
    [0x8769, 4, words(exifAt)],
    [0x8825, 4, words(gpsAt)],
  ]);
  const tiff = Buffer.concat([Buffer.from('MM\0*', 'latin1'), words(first), head, exif(exifAt), gps(gpsAt)]);
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const length = body.length + 2;
  return Buffer.concat([jpeg.subarray(0, 2), Buffer.from([0xff, 0xe1, length >> 8, length & 255]), body, jpeg.subarray(2)]);
}

/** A PNG that says it is so large, and ends there (ISO/IEC 15948: signature, IHDR). */
export function hugePng(widthPixels: number, heightPixels: number): Buffer {
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    words(13),
    Buffer.from('IHDR'),
    words(widthPixels, heightPixels),
    Buffer.from([8, 2, 0, 0, 0, 0, 0, 0, 0]),
  ]);
}

function words(...values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(4 * values.length);
  values.forEach((value, index) => bytes.writeUInt32BE(value, 4 * index));
  return bytes;
}

const UNIT_BYTES: Readonly<Record<number, number>> = { 2: 1, 3: 2, 4: 4, 5: 8 };

/** A directory of TIFF at a place: each entry's value inside where four bytes hold it, else behind. */
function directory(at: number, entries: readonly (readonly [tag: number, type: number, value: Buffer])[]): Buffer {
  const tableBytes = 2 + 12 * entries.length + 4;
  const behind: Buffer[] = [];
  let behindAt = at + tableBytes;
  const rows = entries.map(([tag, type, value]) => {
    const row = Buffer.alloc(12);
    row.writeUInt16BE(tag, 0);
    row.writeUInt16BE(type, 2);
    row.writeUInt32BE(type === 3 ? 1 : value.length / (UNIT_BYTES[type] ?? 1), 4);
    if (value.length <= 4) value.copy(row, 8);
    else {
      row.writeUInt32BE(behindAt, 8);
      behind.push(value);
      behindAt += value.length;
    }
    return row;
  });
  const count = Buffer.alloc(2);
  count.writeUInt16BE(entries.length, 0);
  return Buffer.concat([count, ...rows, words(0), ...behind]);
}
