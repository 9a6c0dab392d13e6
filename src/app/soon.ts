const RETRY_MILLISECONDS = 2_000;

/**
 * Begins something whose code is fetched after the first cue, which waits for none of it; tried again when it cannot be had.
 *
 * @param begin resolves with what ends it
 * @returns what ends it, begun or not
 */
export function soon(begin: () => Promise<() => void>): () => void {
  let ended = false;
  let end = (): void => {};
  let timer: ReturnType<typeof setTimeout> | undefined;
  const attempt = (): void => {
    begin().then(
      (begun) => {
        if (ended) begun();
        else end = begun;
      },
      () => {
        if (!ended) timer = setTimeout(attempt, RETRY_MILLISECONDS);
      },
    );
  };
  attempt();
  return () => {
    ended = true;
    clearTimeout(timer);
    end();
  };
}
