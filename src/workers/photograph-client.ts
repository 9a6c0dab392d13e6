import { proxy } from 'comlink';
import { type OffPage, startOffPage } from './off-page.ts';
import type { PhotographAnswer, PhotographData, PhotographRequest } from './photograph-service.ts';

/** A photograph of ordinary size is laid in a few seconds; one that takes longer than this is given up. */
const LIMIT_MILLISECONDS = 60_000;

/** Looks into a photograph's own data off the page. Never rejects. */
export async function readPhotographFile(
  file: Blob,
  start: () => OffPage = () => startOffPage('photograph reader'),
): Promise<{ readonly ok: true; readonly data: PhotographData } | { readonly ok: false; readonly reason: string }> {
  const worker = start();
  const brokeOff = { ok: false, reason: 'The file could not be read: the reader broke off.' } as const;
  const answer = await Promise.race([worker.services.readPhotographData(file), worker.broken, late(10_000)]).catch(() => brokeOff);
  worker.end();
  return answer ?? { ok: false, reason: 'The file could not be read within 10 s. If it lies in a cloud, open it there first.' };
}

/**
 * Lays a word over a photograph off the page. Never rejects.
 *
 * @param onProgress what is being done, in words
 * @param stop ends it; the answer is then a refusal that says so
 */
export async function layPhotographOffPage(
  request: PhotographRequest,
  onProgress: (words: string) => void,
  stop: AbortSignal,
  start: () => OffPage = () => startOffPage('photograph'),
): Promise<PhotographAnswer> {
  const worker = start();
  const stopped = new Promise<PhotographAnswer>((resolve) => {
    stop.addEventListener('abort', () => resolve({ kind: 'refused', reason: 'Stopped.' }), { once: true });
  });
  const brokeOff: PhotographAnswer = { kind: 'refused', reason: 'The picture could not be measured: the worker broke off.' };
  const answer = await Promise.race([worker.services.layPhotograph(request, proxy(onProgress)), stopped, worker.broken, late(LIMIT_MILLISECONDS)]).catch(
    () => brokeOff,
  );
  worker.end();
  return answer ?? { kind: 'refused', reason: `The picture could not be measured within ${LIMIT_MILLISECONDS / 1000} s.` };
}

function late(milliseconds: number): Promise<null> {
  return new Promise((resolve) => {
    setTimeout(() => resolve(null), milliseconds);
  });
}
