import { proxy } from 'comlink';
import type { ArtworkAnswer, ArtworkRequest } from './artwork-service.ts';
import { type OffPage, startOffPage } from './off-page.ts';

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
  start: () => OffPage = () => startOffPage('drawing reader'),
): () => void {
  const worker = start();
  let ended = false;
  const end = (): void => {
    if (ended) return;
    ended = true;
    clearTimeout(timer);
    worker.end();
  };
  const last = (answer: ArtworkAnswer): void => {
    if (ended) return;
    end();
    onAnswer(answer);
  };
  let timer = setTimeout(
    () => last({ kind: 'refused', reason: `The drawing could not be read within ${READ_MILLISECONDS / 1000} s. Simplify it.` }),
    READ_MILLISECONDS,
  );
  const take = (answer: ArtworkAnswer): void => {
    if (ended) return;
    if (answer.kind !== 'read') return last(answer);
    clearTimeout(timer);
    timer = setTimeout(end, PLAN_MILLISECONDS);
    onAnswer(answer);
  };
  const brokeOff = (): void => last({ kind: 'refused', reason: 'The drawing could not be read: the reader broke off.' });
  worker.broken.catch(brokeOff);
  worker.services.readArtwork(request, proxy(take)).catch(brokeOff);
  return end;
}
