import { type BackupEntry, type BackupLine, endLine, headFault, headLine, lineFromEntry, readLine } from './backup-line.ts';

/** Parts as the bytes of a backup file, made only as fast as it is written. */
export function backupStream(parts: AsyncIterable<BackupEntry>, madeMilliseconds: number): ReadableStream<Uint8Array<ArrayBuffer>> {
  const encoder = new TextEncoder();
  const iterator = lines(parts, madeMilliseconds);
  return new ReadableStream<Uint8Array<ArrayBuffer>>({
    async pull(controller) {
      const next = await iterator.next();
      if (next.done === true) controller.close();
      else controller.enqueue(encoder.encode(`${next.value}\n`));
    },
    async cancel() {
      await iterator.return(undefined);
    },
  });
}

async function* lines(parts: AsyncIterable<BackupEntry>, madeMilliseconds: number): AsyncGenerator<string, undefined> {
  yield headLine(madeMilliseconds);
  let count = 0;
  for await (const entry of parts) {
    yield await lineFromEntry(entry);
    count += 1;
  }
  yield endLine(count);
  return undefined;
}

/** One line of a backup file; a fault ends the reading. */
export type BackupReading = BackupLine | { readonly kind: 'fault'; readonly reason: string };

/** No line of a backup is longer: an overlay is at most 20 MB. */
const LONGEST_LINE = 80_000_000;

/**
 * The parts of a backup file, one after the other. A file that is none yields one fault and no part; one
 * that was cut or changed yields what is whole, what is damaged by name, and in the end a fault.
 */
export async function* readBackup(file: Pick<Blob, 'stream'>): AsyncGenerator<BackupReading> {
  const text = file.stream().pipeThrough(new TextDecoderStream());
  let head = true;
  let parts = 0;
  let ended = false;
  try {
    for await (const line of linesOf(text)) {
      if (head) {
        const fault = headFault(line);
        if (fault !== null) {
          yield { kind: 'fault', reason: fault };
          return;
        }
        head = false;
        continue;
      }
      if (line === '') continue;
      const read = await readLine(line);
      if (read.kind === 'end') ended = read.parts === parts;
      else parts += 1;
      yield read;
    }
  } catch {
    yield {
      kind: 'fault',
      reason: head ? 'This is not a backup, or its beginning is damaged.' : 'The file is damaged from here on: what came before was taken.',
    };
    return;
  }
  if (!ended) yield { kind: 'fault', reason: head ? 'The file is empty.' : 'The file was cut, or parts are missing: what is whole was taken.' };
}

async function* linesOf(text: ReadableStream<string>): AsyncGenerator<string> {
  const reader = text.getReader();
  let pieces: string[] = [];
  let length = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      let rest = value;
      for (let at = rest.indexOf('\n'); at >= 0; at = rest.indexOf('\n')) {
        yield pieces.join('') + rest.slice(0, at);
        pieces = [];
        length = 0;
        rest = rest.slice(at + 1);
      }
      pieces.push(rest);
      length += rest.length;
      if (length > LONGEST_LINE) throw new RangeError(`a line of more than ${LONGEST_LINE} characters`);
    }
    if (length > 0) yield pieces.join('');
  } finally {
    reader.cancel().catch(() => {});
  }
}
