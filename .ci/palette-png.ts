import { crc32, deflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
/** So many colours a palette holds. */
const COLOURS = 256;

function chunk(type: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, check]);
}

/**
 * An opaque picture of few colours as a PNG with a palette (W3C PNG, second edition, sections 5, 9 and 11), a quarter as long as with all
 * its shades: colours that part by less than eight of 256 are one. Throws an Error when there are more than a palette holds.
 */
export function palettePng(rgba: Uint8ClampedArray, widthPixels: number, heightPixels: number): Buffer {
  const indices = new Map<number, number>();
  const palette: number[] = [];
  const rows = Buffer.alloc((widthPixels + 1) * heightPixels);
  for (let pixel = 0; pixel < widthPixels * heightPixels; pixel += 1) {
    const [red = 0, green = 0, blue = 0] = rgba.subarray(4 * pixel, 4 * pixel + 3);
    const key = ((red >> 3) << 10) | ((green >> 3) << 5) | (blue >> 3);
    let index = indices.get(key);
    if (index === undefined) {
      index = indices.size;
      indices.set(key, index);
      palette.push(red, green, blue);
    }
    // Each row begins with its filter, 0 for none.
    rows[Math.floor(pixel / widthPixels) + 1 + pixel] = index;
  }
  if (indices.size > COLOURS) throw new Error(`${indices.size} colours are too many for a palette`);
  const head = Buffer.alloc(13);
  head.writeUInt32BE(widthPixels, 0);
  head.writeUInt32BE(heightPixels, 4);
  // Eight bits to an index, by palette.
  head.set([8, 3], 8);
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', head),
    chunk('PLTE', Buffer.from(palette)),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
