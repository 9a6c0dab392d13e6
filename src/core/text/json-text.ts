const SIZE_LIMIT_BYTES = 1_000_000;
const DEPTH_LIMIT = 32;

export type JsonReading = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly reason: string };

/**
 * JSON from outside: at most 1 MB as UTF-8 and 32 levels deep, both found out before anything is built from it.
 * The reason is worded for the person who chose the file. Linear in the text's length.
 */
export function readJsonText(text: string): JsonReading {
  if (text.length > SIZE_LIMIT_BYTES || utf8Bytes(text) > SIZE_LIMIT_BYTES) {
    return { ok: false, reason: 'This file is larger than 1 MB, far more than a job needs. It was not opened.' };
  }
  if (text.trim() === '') return { ok: false, reason: 'This file is empty.' };
  if (depthOf(text) > DEPTH_LIMIT)
    return { ok: false, reason: `This file is nested more than ${DEPTH_LIMIT} levels deep, which no job file is. It was not opened.` };
  try {
    return { ok: true, value: JSON.parse(text.replace(/^\uFEFF/, '')) as unknown };
  } catch (error) {
    return { ok: false, reason: `This file is not whole JSON${placeOf(error, text)}. It may have been cut off or changed; ask for it again.` };
  }
}

function utf8Bytes(text: string): number {
  let bytes = 0;
  for (let index = 0; index < text.length; index += 1) {
    const unit = text.charCodeAt(index);
    // Each half of a surrogate pair makes two of the pair's four bytes.
    bytes += unit < 0x80 ? 1 : unit < 0x8_00 || (unit >= 0xd8_00 && unit <= 0xdf_ff) ? 2 : 3;
  }
  return bytes;
}

function depthOf(text: string): number {
  let depth = 0;
  let deepest = 0;
  let quoted = false;
  for (let index = 0; index < text.length; index += 1) {
    const character = text[index];
    if (quoted) {
      if (character === '\\') index += 1;
      else if (character === '"') quoted = false;
    } else if (character === '"') quoted = true;
    else if (character === '{' || character === '[') deepest = Math.max(deepest, (depth += 1));
    else if (character === '}' || character === ']') depth -= 1;
  }
  return deepest;
}

/** Engines word their messages differently; some name a position, some a line, some neither. */
function placeOf(error: unknown, text: string): string {
  const message = error instanceof Error ? error.message : '';
  const line = /line (\d+)/.exec(message)?.[1];
  if (line !== undefined) return ` (line ${line})`;
  const position = /position (\d+)/.exec(message)?.[1];
  return position === undefined ? '' : ` (line ${text.slice(0, Number(position)).split('\n').length})`;
}
