/** So many strangers are looked at together; others wait outside, where they cost next to nothing. */
const TOGETHER = 12;
/** Whoever has not said its CONNECT by then is waited for without keeping the others outside. */
const PATIENCE_MILLISECONDS = 250;
const OUTSIDE_LIMIT = 2000;

/** Lets connections in a few at a time, so that many at once cannot make the hub hold something for each of them. */
export interface Door {
  /**
   * Calls back when it is this one's turn, with what is to be called when it has said who it is or is gone; calls back with
   * null when too many wait.
   */
  enter(letIn: (done: (() => void) | null) => void): void;
}

export function createDoor(): Door {
  const outside: ((done: (() => void) | null) => void)[] = [];
  let inside = 0;
  let isNewestNext = false;

  function next(): void {
    while (inside < TOGETHER) {
      // Whoever comes into a crowd does not wait for all of it, and whoever came first is not left behind.
      isNewestNext = !isNewestNext;
      const letIn = isNewestNext ? outside.pop() : outside.shift();
      if (letIn === undefined) return;
      inside += 1;
      let isDone = false;
      const done = (): void => {
        if (isDone) return;
        isDone = true;
        clearTimeout(timer);
        inside -= 1;
        next();
      };
      const timer = setTimeout(done, PATIENCE_MILLISECONDS);
      timer.unref();
      letIn(done);
    }
  }

  return {
    enter(letIn) {
      outside.push(letIn);
      if (outside.length > OUTSIDE_LIMIT) outside.shift()?.(null);
      next();
    },
  };
}
