import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/**
 * The engine reads 64 KB at a time and lets what nobody holds any more lie until it needs the room: a flood of strangers
 * would grow the hub by all that was read from them. A sweep takes some 15 ms, so it comes at most so often.
 */
const APART_MILLISECONDS = 40;
/** A socket that was cut is let go of within this. */
const LET_GO_MILLISECONDS = 5;
const SWEPT_FROM_BYTES = 64 * 1024;

/** Clears away what was read from strangers that were cut, soon instead of some time. */
export interface StrangerSweep {
  /** So many bytes of one that was cut are of no use any more. */
  readonly leftBehind: (bytes: number) => void;
}

/** @param sweep how memory is cleared; the engine's own where nothing is given */
export function createStrangerSweep(sweep: () => void = engineSweep()): StrangerSweep {
  let lyingBytes = 0;
  let sweptAt = -Infinity;
  let timer: NodeJS.Timeout | null = null;
  const due = (): void => {
    timer = null;
    lyingBytes = 0;
    sweptAt = performance.now();
    sweep();
  };
  return {
    leftBehind(bytes) {
      lyingBytes += bytes;
      if (lyingBytes < SWEPT_FROM_BYTES || timer !== null) return;
      timer = setTimeout(due, Math.max(LET_GO_MILLISECONDS, sweptAt + APART_MILLISECONDS - performance.now()));
      timer.unref();
    },
  };
}

/** V8's own, which has no name until it is asked for by a flag. */
function engineSweep(): () => void {
  setFlagsFromString('--expose-gc');
  return runInNewContext('gc') as () => void;
}
