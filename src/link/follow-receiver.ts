import { aircraftFromReceiver, type ReceivedAircraft, type ReceiverMapping } from '../core/wire/link-receiver.ts';
import type { LinkInstant } from './link-clock.ts';

/** What a receiver gave at the last asking. */
export type ReceiverState =
  | { readonly kind: 'asking' }
  | { readonly kind: 'heard'; readonly aircraft: readonly ReceivedAircraft[]; readonly at: LinkInstant }
  /** What was heard before stays beside it, with its time. */
  | { readonly kind: 'failed'; readonly reason: string };

export interface FollowReceiverOptions {
  readonly address: string;
  readonly mapping: ReceiverMapping;
  readonly now: () => LinkInstant;
  readonly fetch: (
    address: string,
    init: { readonly signal: AbortSignal; readonly cache: 'no-store'; readonly credentials: 'omit'; readonly redirect: 'error' },
  ) => Promise<Pick<Response, 'ok' | 'status' | 'text'>>;
  onState(state: ReceiverState): void;
}

const ASK_MILLISECONDS = 1000;
const ANSWER_MILLISECONDS = 4000;
const LENGTH_LIMIT = 1_000_000;
/** A page is not told why; these are the reasons there are. */
const UNREACHED =
  'The receiver cannot be reached. This page may reach https addresses, this machine, and what the hub passes on: start the hub with --receiver and the address, and write /receiver.json here. A receiver that is asked directly must also allow other pages to read it (CORS).';

/** Asks a receiver once a second, one question at a time, until the returned function is called. */
export function followReceiver({ address, mapping, now, fetch: ask, onState }: FollowReceiverOptions): () => void {
  let ended = false;
  let asking = false;
  async function once(): Promise<void> {
    if (asking || ended) return;
    asking = true;
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), ANSWER_MILLISECONDS);
    try {
      const answer = await ask(address, { signal: stop.signal, cache: 'no-store', credentials: 'omit', redirect: 'error' });
      const text = answer.ok ? await answer.text() : '';
      const reading = !answer.ok
        ? ({ ok: false, reason: `The receiver answers with status ${answer.status}.` } as const)
        : text.length > LENGTH_LIMIT
          ? ({ ok: false, reason: 'The receiver’s answer is larger than 1 MB.' } as const)
          : aircraftFromReceiver(text, mapping);
      if (!ended) onState(reading.ok ? { kind: 'heard', aircraft: reading.value, at: now() } : { kind: 'failed', reason: reading.reason });
    } catch {
      if (!ended) onState({ kind: 'failed', reason: stop.signal.aborted ? 'The receiver does not answer in time.' : UNREACHED });
    } finally {
      clearTimeout(timer);
      asking = false;
    }
  }
  onState({ kind: 'asking' });
  void once();
  const timer = setInterval(() => void once(), ASK_MILLISECONDS);
  return () => {
    ended = true;
    clearInterval(timer);
  };
}
