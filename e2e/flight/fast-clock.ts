/**
 * A faked clock for many flights in a row: time stands still except in `advance`, which runs what is due in order and
 * lets the page's own tasks (storage, rendering) run in between. Playwright's clock does the same with more care and
 * takes several times as long.
 */
declare global {
  interface Window {
    fastClock: { advance(milliseconds: number): Promise<void> };
  }
}

interface Due {
  readonly id: number;
  atMilliseconds: number;
  readonly everyMilliseconds: number | null;
  readonly run: () => void;
}

const realDate = Date;
const base = realDate.now();
let elapsed = 0;
let nextId = 1_000_000;
const due = new Map<number, Due>();

class FakeDate extends realDate {
  constructor(...parts: readonly number[]) {
    if (parts.length === 0) super(base + elapsed);
    else super(...(parts as [number]));
  }
  static override now(): number {
    return base + elapsed;
  }
}

function schedule(run: unknown, milliseconds: number | undefined, repeated: boolean): number {
  const id = nextId++;
  const wait = Math.max(1, Number(milliseconds) || 0);
  if (typeof run === 'function') due.set(id, { id, atMilliseconds: elapsed + wait, everyMilliseconds: repeated ? wait : null, run: run as () => void });
  return id;
}

const realClearTimeout = window.clearTimeout.bind(window);
let faking = false;

/** Until the flight begins the page runs on its own time, so that it loads as it always does. */
window.fastClock = {
  async advance(milliseconds) {
    if (!faking) {
      faking = true;
      elapsed = realDate.now() - base;
      const clear = (id?: number): void => {
        if (id === undefined) return;
        if (!due.delete(id)) realClearTimeout(id);
      };
      Object.assign(window, {
        Date: FakeDate,
        setTimeout: (run: unknown, wait?: number) => schedule(run, wait, false),
        setInterval: (run: unknown, wait?: number) => schedule(run, wait, true),
        clearTimeout: clear,
        clearInterval: clear,
        requestAnimationFrame: (run: (at: number) => void) => schedule(() => run(performance.now()), 16, false),
        cancelAnimationFrame: clear,
      });
      const offset = performance.now() - elapsed;
      performance.now = () => offset + elapsed;
    }
    const until = elapsed + milliseconds;
    const channel = new MessageChannel();
    const breathe = (): Promise<void> =>
      new Promise((resolve) => {
        channel.port1.onmessage = () => resolve();
        channel.port2.postMessage(0);
      });
    for (;;) {
      const next = [...due.values()].reduce<Due | null>((best, one) => (best === null || one.atMilliseconds < best.atMilliseconds ? one : best), null);
      if (next === null || next.atMilliseconds > until) break;
      elapsed = next.atMilliseconds;
      if (next.everyMilliseconds === null) due.delete(next.id);
      else next.atMilliseconds += next.everyMilliseconds;
      next.run();
      await breathe();
    }
    elapsed = until;
    channel.port1.close();
  },
};

export {};
