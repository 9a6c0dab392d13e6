/** What a file under a picture's name is. */
export type PictureKind = { readonly ok: true; readonly type: string; readonly pixels: number | null } | { readonly ok: false; readonly reason: string };

/** More than any telephone takes, and than a tablet can open beside a flight. */
const MOST_PIXELS = 60e6;
const NOT_A_PICTURE = 'It is no photograph that can be read: JPEG, PNG, WebP, HEIC or AVIF are.';

/**
 * What a file's first bytes say it is (JPEG: ITU-T T.81 annex B; PNG: ISO/IEC 15948; WebP: RFC 9649; HEIF: ISO/IEC
 * 23008-12), and how large the picture is where they tell. Drawings and pages are refused by name, and pictures too large
 * to be opened.
 *
 * @param bytes the file's beginning; 256 KB hold the size of any usual JPEG
 */
export function pictureKind(bytes: Uint8Array): PictureKind {
  const text = String.fromCharCode(...bytes.subarray(0, 256));
  if (bytes.length < 12) return refused('The file is empty or broken off.');
  if (/^\s*<(\?xml|svg|!doctype|html)/i.test(text)) return refused('It is a drawing or a page, not a photograph, whatever its name says.');
  let pixels: number | null = null;
  let type = '';
  if (bytes[0] === 0xff && bytes[1] === 0xd8) [type, pixels] = ['image/jpeg', jpegPixels(bytes)];
  else if (text.startsWith('\u0089PNG')) [type, pixels] = ['image/png', wordAt(bytes, 16) * wordAt(bytes, 20)];
  else if (text.startsWith('RIFF') && text.slice(8, 12) === 'WEBP') type = 'image/webp';
  else if (text.slice(4, 8) === 'ftyp') type = /avif|avis/.test(text.slice(8, 32)) ? 'image/avif' : 'image/heic';
  else return refused(NOT_A_PICTURE);
  if (pixels !== null && pixels > MOST_PIXELS)
    return refused(`It has ${Math.round(pixels / 1e6)} megapixels; up to ${MOST_PIXELS / 1e6} can be opened. Make it smaller first.`);
  return { ok: true, type, pixels };
}

function refused(reason: string): PictureKind {
  return { ok: false, reason };
}

const wordAt = (bytes: Uint8Array, at: number): number => (bytes[at]! << 24) | (bytes[at + 1]! << 16) | (bytes[at + 2]! << 8) | bytes[at + 3]!;

/** Height times width from the frame's header; null where the file's beginning does not reach it. */
function jpegPixels(bytes: Uint8Array): number | null {
  let at = 2;
  while (at + 9 < bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1]!;
    const isFrame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (isFrame) return ((bytes[at + 5]! << 8) | bytes[at + 6]!) * ((bytes[at + 7]! << 8) | bytes[at + 8]!);
    at += 2 + ((bytes[at + 2]! << 8) | bytes[at + 3]!);
  }
  return null;
}
