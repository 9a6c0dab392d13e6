import type { ArtworkAnswer, ArtworkRequest } from './artwork-service.worker.ts';

/** Anything that posts a message and answers with some. */
export interface ArtworkReaderWorker {
  onmessage: ((event: MessageEvent<ArtworkAnswer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: ArtworkRequest): void;
  terminate(): void;
}

/** A drawing is read well within this, or refused; its order may take longer. */
const READ_MILLISECONDS = 2000;
const PLAN_MILLISECONDS = 20_000;

/**
 * Reads a drawing off the page, with timers that end the worker: one that hangs the reader hangs nothing else. Calls
 * `onAnswer` once with a refusal, or with what was read and then, when it was found in time, with its order.
 *
 * @returns what ends the reading, without a further answer
 */
export function readArtwork(
  request: ArtworkRequest,
  onAnswer: (answer: ArtworkAnswer) => void,
  startWorker: () => ArtworkReaderWorker = startArtworkReader,
): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const worker = startWorker();
  const end = (): void => {
    clearTimeout(timer);
    worker.onmessage = null;
    worker.onerror = null;
    worker.terminate();
  };
  const last = (answer: ArtworkAnswer): void => {
    end();
    onAnswer(answer);
  };
  const breakOff = (reason: string) => (): void => last({ kind: 'refused', reason });
  timer = setTimeout(breakOff(`The drawing could not be read within ${READ_MILLISECONDS / 1000} s. Simplify it.`), READ_MILLISECONDS);
  worker.onerror = breakOff('The drawing could not be read: the reader broke off.');
  worker.onmessage = ({ data }) => {
    if (data.kind !== 'read') {
      last(data);
      return;
    }
    clearTimeout(timer);
    timer = setTimeout(end, PLAN_MILLISECONDS);
    onAnswer(data);
  };
  worker.postMessage(request);
  return end;
}

function startArtworkReader(): ArtworkReaderWorker {
  return new Worker(new URL('./artwork-reader.worker.ts', import.meta.url), { type: 'module', name: 'artwork-reader' });
}
