const LOOK_MILLISECONDS = 100;
/** A look that comes later than this found the page busy. */
const LATE_MILLISECONDS = 30;
const CALM_LOOKS = 10;
const PATIENCE_MILLISECONDS = 5000;

/**
 * Resolves when the page has not been busy for a second, after five in any case: what is begun then, storing the app
 * above all, takes nothing from what is just being shown.
 */
export async function atRest(): Promise<void> {
  const begunAt = performance.now();
  for (let calm = 0; calm < CALM_LOOKS && performance.now() - begunAt < PATIENCE_MILLISECONDS;) {
    const dueAt = performance.now() + LOOK_MILLISECONDS;
    await new Promise((resolve) => setTimeout(resolve, LOOK_MILLISECONDS));
    calm = performance.now() - dueAt > LATE_MILLISECONDS ? 0 : calm + 1;
  }
}
