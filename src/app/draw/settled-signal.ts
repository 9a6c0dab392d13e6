import { effect, type ReadonlySignal, signal } from '@preact/signals';

/** Long enough that typing does not pay for it, short enough to seem to follow. */
const STANDS_MILLISECONDS = 350;

/**
 * A signal that follows another once it has stood still for a moment; the first value that is not null at once.
 *
 * @param after calls back after a while, as setTimeout does; returns what takes the call back
 */
export function settledSignal<Value>(
  source: ReadonlySignal<Value | null>,
  after: (milliseconds: number, call: () => void) => () => void,
): { readonly settled: ReadonlySignal<Value | null>; dispose(): void } {
  const settled = signal<Value | null>(null);
  let cancel: (() => void) | null = null;
  const stop = effect(() => {
    const next = source.value;
    cancel?.();
    cancel = null;
    if (settled.peek() === null) settled.value = next;
    else if (settled.peek() !== next) cancel = after(STANDS_MILLISECONDS, () => (settled.value = next));
  });
  return {
    settled,
    dispose() {
      stop();
      cancel?.();
    },
  };
}
